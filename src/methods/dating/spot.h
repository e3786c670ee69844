#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "methods/dating/result_context.h"
#include "model/quantity.h"
#include "model/words.h"
#include "model/year.h"

namespace sherd::dating {

/// A line of a context with the date that was found for it. The texts must outlive the call.
struct DatedLine {
  std::string_view record;
  YearRange range;           ///< empty where undated
  std::string_view because;  ///< what the range rests on
  std::string_view vessel;
  std::optional<std::int64_t> count, vessels, rims;
  std::optional<Weight> weight;
  std::optional<Judgement> judged;
};

struct Termini {
  std::optional<Terminus> own;        ///< from lines not judged intrusive
  std::optional<Terminus> intrusive;  ///< from lines judged intrusive, where that would be later: it stops here
};

/// Terminus post quem of one context: the latest year in which a line's range starts. A line that is open at its
/// start sets none.
Termini terminus_post_quem(std::span<const DatedLine> lines);

/// The conventional spot range of one context: the common range of the latest overlapping group of two or more
/// vessels. Lines judged residual or intrusive are left out; nothing where no vessel is dated.
std::optional<Spot> spot_range(std::span<const DatedLine> lines);

/// What had gone out of use before `terminus`: lines whose range ends earlier.
Residual residual_before(Year terminus, std::span<const DatedLine> lines);

}  // namespace sherd::dating
