#pragma once

#include <cstdint>
#include <span>

#include "base/result.h"
#include "methods/dating/result_context.h"
#include "model/year.h"

namespace sherd::dating {

/// An amount (sherds, mg, vessels, EVE) with the range it belongs to somewhere.
struct DatedAmount {
  YearRange range;
  double amount = 0;
  YearRange full = {};  ///< years of full production within the range; read by the curves that have a peak
};

struct CurveSettings {
  std::int64_t width = 25;              ///< years a bin
  Year origin = {1};                    ///< a year in which a bin begins: with 1, bins of 50 are 101-150, 151-200 ...
  CurveShape shape = CurveShape::flat;  ///< how making is spread over its years
};

/// Spreads each amount over the calendar years of its range, both ends counted (a..b is b - a + 1 years), by the curve
/// chosen, and adds up by bins. The total is conserved. Curves, sources and limits: docs/methods/apportioning.md.
/// Errors: `bin_width` (below 1), `curve_too_fine` (over 100,000 bins), `reversed_range`, `full_years` (full production
/// outside the range or reversed; never with the flat curve).
Result<Curve> apportion(std::span<const DatedAmount> amounts, const CurveSettings& settings);

}  // namespace sherd::dating
