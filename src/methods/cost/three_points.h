#pragma once

#include <array>
#include <cstdint>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "model/words.h"

namespace sherd::cost {

/// An amount as its least, its likely and its most: low <= likely <= high.
struct ThreePoints {
  double low = 0, likely = 0, high = 0;
  bool sure() const { return low == high; }
  friend bool operator==(const ThreePoints&, const ThreePoints&) = default;
};

/// How an amount is taken to lie between its ends. triangular: the density rises and falls in straight lines, mean (low
/// + likely + high)/3; pert: a beta distribution that keeps nearer to the likely value, mean (low + 4 likely + high)/6
/// (Malcolm, Roseboom, Clark & Fazar 1959, Application of a technique for research and development program
/// evaluation, Operations Research 7: 646-669; from memory).
enum class Shape { triangular, pert };

/// Error `bad_request` where the ends are not in order or not finite.
Result<void> check(const ThreePoints& points);

double mean(const ThreePoints& points, Shape shape);
/// Standard deviation: of the triangle exactly; of pert exactly for the beta with shape parameters 1 + 4 (likely -
/// low)/(high - low) and 1 + 4 (high - likely)/(high - low), which is not the sixth of the span that planners use.
double standard_deviation(const ThreePoints& points, Shape shape);

/// The values that lie above a share of all draws, for many shares: by a table of a thousand steps.
class Quantiles {
 public:
  Quantiles(const ThreePoints& points, Shape shape);
  double operator()(double share) const;

 private:
  std::vector<double> at_;
};

}  // namespace sherd::cost

namespace sherd {
template <>
struct Words<cost::Shape> {
  static constexpr std::array<std::string_view, 2> kNames{"triangular", "pert"};
};
}  // namespace sherd
