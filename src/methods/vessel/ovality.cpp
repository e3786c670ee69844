#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "methods/statistics/decompose.h"
#include "methods/vessel/rim_parts.h"

namespace sherd::vessel {

namespace {

constexpr double kLeastShare = 0.25;
constexpr std::size_t kLeastPoints = 12;
constexpr int kRounds = 5;
constexpr double kRounding = 1e-9;  // of the radius

}  // namespace

double effective_readings(std::span<const double> along) {
  const auto n = static_cast<double>(along.size());
  if (along.size() < 10) return n;
  double squares = 0;
  double products = 0;
  for (std::size_t i = 0; i < along.size(); ++i) {
    squares += along[i] * along[i];
    if (i > 0) products += along[i] * along[i - 1];
  }
  if (squares <= 0) return n;
  const double rho = products / squares;
  if (rho <= 2 / std::sqrt(n)) return n;
  return std::max(4.0, n * (1 - rho) / (1 + rho));
}

std::optional<Ovality> ovality_of(std::span<const Place> points, const CircleFit& circle, double share) {
  if (share < kLeastShare || points.size() < kLeastPoints) return std::nullopt;
  Place centre = circle.centre;
  double radius = circle.radius_mm;
  double rest = 0;
  std::vector<double> gaps;
  std::array<double, 2> wave{};
  for (int round = 0; round < kRounds; ++round) {
    statistics::Matrix x(points.size(), 5);
    std::vector<double> distance;
    for (std::size_t i = 0; i < points.size(); ++i) {
      const double angle = std::atan2(points[i].y - centre.y, points[i].x - centre.x);
      const double row[5] = {1, std::cos(angle), std::sin(angle), std::cos(2 * angle), std::sin(2 * angle)};
      std::ranges::copy(row, &x(i, 0));
      distance.push_back(std::hypot(points[i].x - centre.x, points[i].y - centre.y));
    }
    const auto fit = statistics::least_squares(x, distance);
    if (!fit) return std::nullopt;
    radius = fit->coefficients[0];
    centre.x += fit->coefficients[1];
    centre.y += fit->coefficients[2];
    wave = {fit->coefficients[3], fit->coefficients[4]};
    rest = fit->residual_ss;
    gaps = std::move(distance);
    for (std::size_t i = 0; i < gaps.size(); ++i) gaps[i] -= fit->fitted[i];
  }
  const double height = std::hypot(wave[0], wave[1]);
  const auto n = static_cast<double>(points.size());
  const double round_ss = circle.rms_mm * circle.rms_mm * n;
  const double df = effective_readings(gaps) - 5;
  if (df < 1) return std::nullopt;
  // What is left of rounding is no wave.
  if (std::sqrt(round_ss / n) < kRounding * radius) return Ovality{2 * radius, 2 * radius, 0, 1};
  // The upper tail of F with 2 and df degrees of freedom.
  const double f = (round_ss - rest) / 2 / (rest / df);
  double direction = std::atan2(wave[1], wave[0]) / 2 * 180 / std::numbers::pi;
  if (direction < 0) direction += 180;
  return Ovality{2 * (radius - height), 2 * (radius + height), direction,
                 std::pow(1 + 2 * std::max(0.0, f) / df, -df / 2)};
}

}  // namespace sherd::vessel
