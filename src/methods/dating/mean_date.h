#pragma once

#include <cstdint>
#include <span>
#include <string_view>

#include "base/result.h"
#include "methods/dating/result.h"
#include "model/year.h"

namespace sherd::dating {

/// So many sherds of a kind that was in use in that range.
struct DatedCount {
  std::string_view kind;
  YearRange range;
  std::int64_t count = 0;
};

struct MeanDateSettings {
  std::int64_t resamples = 1000;
  std::uint64_t seed = 0;
  std::uint64_t stream = 0;  ///< one a context, so that contexts do not share their draws
  bool by_formula = false;   ///< sd / sqrt n at once, which the resampling approaches
};

/// South's mean date: sum of count times midpoint over sum of count (South 1972, 1977); sd of the midpoints; 95 % as
/// 1.96 standard deviations of the mean over multinomial resamples of the counts (above 10,000 sherds: by the formula
/// that these approach, sd / sqrt n). Kinds that are undated or open at an end are reported, not dropped.
/// Errors: `negative_count`, `too_many_resamples`.
Result<MeanDate> mean_date(std::span<const DatedCount> counts, const MeanDateSettings& settings);

}  // namespace sherd::dating
