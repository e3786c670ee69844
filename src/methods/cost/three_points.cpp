#include "methods/cost/three_points.h"

#include <algorithm>
#include <cmath>

#include "methods/statistics/distributions.h"

namespace sherd::cost {

namespace {

constexpr int kSteps = 1000;
constexpr int kHalvings = 52;

/// 0..1: where the likely value lies between the ends.
double mode_of(const ThreePoints& points) { return (points.likely - points.low) / (points.high - points.low); }

double triangular_quantile(double share, double mode) {
  return share < mode ? std::sqrt(share * mode) : 1 - std::sqrt((1 - share) * (1 - mode));
}

double beta_quantile(double share, double a, double b, double from) {
  double low = from, high = 1;
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = (low + high) / 2;
    (statistics::beta_lower(middle, a, b) < share ? low : high) = middle;
  }
  return (low + high) / 2;
}

}  // namespace

Result<void> check(const ThreePoints& points) {
  const bool finite = std::isfinite(points.low) && std::isfinite(points.likely) && std::isfinite(points.high);
  if (finite && points.low <= points.likely && points.likely <= points.high) return {};
  return fail("bad_request", "least, likely and most are not in that order");
}

double mean(const ThreePoints& points, Shape shape) {
  return shape == Shape::triangular ? (points.low + points.likely + points.high) / 3
                                    : (points.low + 4 * points.likely + points.high) / 6;
}

double standard_deviation(const ThreePoints& points, Shape shape) {
  const double a = points.low, m = points.likely, b = points.high;
  if (points.sure()) return 0;
  if (shape == Shape::triangular) return std::sqrt((a * a + b * b + m * m - a * b - a * m - b * m) / 18);
  const double mu = mean(points, shape);
  return std::sqrt((mu - a) * (b - mu) / 7);
}

Quantiles::Quantiles(const ThreePoints& points, Shape shape) {
  if (points.sure()) {
    at_ = {points.low};
    return;
  }
  const double mode = mode_of(points), span = points.high - points.low;
  double before = 0;
  for (int i = 0; i <= kSteps; ++i) {
    const double share = static_cast<double>(i) / kSteps;
    if (i > 0) {
      before = i == kSteps                  ? 1
               : shape == Shape::triangular ? triangular_quantile(share, mode)
                                            : beta_quantile(share, 1 + 4 * mode, 1 + 4 * (1 - mode), before);
    }
    at_.push_back(points.low + span * before);
  }
}

double Quantiles::operator()(double share) const {
  if (at_.size() == 1) return at_.front();
  const double place = std::clamp(share, 0.0, 1.0) * kSteps;
  const auto step = std::min(static_cast<std::size_t>(place), static_cast<std::size_t>(kSteps - 1));
  return at_[step] + (place - static_cast<double>(step)) * (at_[step + 1] - at_[step]);
}

}  // namespace sherd::cost
