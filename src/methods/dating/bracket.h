#pragma once

#include <optional>
#include <span>

#include "methods/dating/result_context.h"
#include "methods/dating/spot.h"
#include "model/year.h"

namespace sherd::dating {

/// The years in which the vessels of one context were in production together: how many in each year, and for all of
/// them, nine and three in four either the years that hold so many or, where none does, the shortest spans that touch
/// the ranges of so many. Lines judged residual or intrusive are left out, as in `spot_range`; nothing where no vessel
/// is dated. `terminus`: the context's, to set beside. Rule: docs/methods/bracket.md.
std::optional<Bracket> bracket_of(std::span<const DatedLine> lines, std::optional<Year> terminus);

}  // namespace sherd::dating
