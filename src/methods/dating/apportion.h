#pragma once

#include <cstdint>
#include <span>

#include "base/result.h"
#include "methods/dating/result.h"
#include "model/year.h"

namespace sherd::dating {

/// An amount (sherds, mg, vessels, EVE) with the range it belongs to somewhere.
struct DatedAmount {
  YearRange range;
  double amount = 0;
};

struct CurveSettings {
  std::int64_t width = 25;  ///< years a bin
  Year origin = {1};        ///< a year in which a bin begins: with 1, bins of 50 are 101-150, 151-200 ...
};

/// Spreads each amount evenly over the calendar years of its range, both ends counted (a..b is b - a + 1 years), and
/// adds up by bins. The total is conserved. Source and limits: docs/methods/spot-dates.md.
/// Errors: `bin_width` (below 1), `curve_too_fine` (over 100,000 bins), `reversed_range`.
Result<Curve> apportion(std::span<const DatedAmount> amounts, const CurveSettings& settings);

}  // namespace sherd::dating
