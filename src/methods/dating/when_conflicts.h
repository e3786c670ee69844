#pragma once

#include <vector>

#include "methods/dating/density.h"
#include "methods/dating/result_object.h"
#include "methods/dating/when.h"

namespace sherd::dating {

/// What does not go together: no common year (`no_year_fits`; `spans_miss` where the shoulders still meet;
/// `outside_window`), equally specific rows with other years (`sources_differ`, `regions_differ`), and what is usual
/// but impossible by the rest (`unusual`).
std::vector<WhenConflict> conflicts_of(const std::vector<Piece>& pieces, const WhenQuestion& question, Window window,
                                       const YearDensity& density);

}  // namespace sherd::dating
