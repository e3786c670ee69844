#include "methods/statistics/quantile.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace sherd::statistics {

double quantile(std::span<const double> ascending, double p) {
  const double h = static_cast<double>(ascending.size() - 1) * std::clamp(p, 0.0, 1.0);
  const double below = std::floor(h);
  const auto at = static_cast<std::size_t>(below);
  if (at + 1 >= ascending.size()) return ascending.back();
  return ascending[at] + (h - below) * (ascending[at + 1] - ascending[at]);
}

std::optional<Interval> central_interval(std::vector<double> values, double share) {
  if (values.empty()) return std::nullopt;
  std::sort(values.begin(), values.end());
  return Interval{quantile(values, (1 - share) / 2), quantile(values, (1 + share) / 2)};
}

std::optional<Moments> weighted_moments(std::span<const double> values, std::span<const double> weights) {
  Moments out;
  double sum = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    out.weight += weights[i];
    sum += weights[i] * values[i];
  }
  if (out.weight <= 0) return std::nullopt;
  out.mean = sum / out.weight;
  double squares = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    squares += weights[i] * (values[i] - out.mean) * (values[i] - out.mean);
  }
  out.sd = std::sqrt(squares / out.weight);
  return out;
}

}  // namespace sherd::statistics
