#pragma once

#include <optional>
#include <span>
#include <vector>

#include "methods/statistics/result.h"

namespace sherd::statistics {

/// The p-quantile of ascending values by linear interpolation, h = (n - 1) p: type 7 of Hyndman & Fan 1996,
/// "Sample quantiles in statistical packages", The American Statistician 50: 361-365.
/// `ascending` holds at least one value; p is 0..1 and is clamped to that.
double quantile(std::span<const double> ascending, double p);

/// The central `share` of the values: their quantiles (1 - share)/2 and (1 + share)/2. Nothing where there are no
/// values. The order of the values is of no matter.
std::optional<Interval> central_interval(std::vector<double> values, double share = 0.95);

/// Mean and standard deviation of a population (divisor: sum of weights), each value with its weight >= 0.
struct Moments {
  double mean = 0;
  double sd = 0;
  double weight = 0;
};
/// Nothing where the weights add up to 0. `values` and `weights` are of the same length.
std::optional<Moments> weighted_moments(std::span<const double> values, std::span<const double> weights);

}  // namespace sherd::statistics
