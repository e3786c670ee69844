#include "figure/vessel_band_lines.h"

#include <cmath>
#include <numbers>

namespace sherd::figure {
namespace {

constexpr double kDotMm = 0.01;  // long; the round ends make the dot

}  // namespace

std::optional<double> BandSurface::x(double angle, double y) const {
  const auto at = edge(y);
  if (!at) return std::nullopt;
  return flat ? *at * angle : *at * std::sin(angle);
}

double BandSurface::last_angle() const { return flat ? 1 : std::numbers::pi / 2; }

void BandLines::level(double y) {
  const auto edge = surface_.edge(y);
  if (edge) out_.lines.push_back({{0, y}, {*edge, y}});
}

void BandLines::dot(const std::optional<double>& x, double y) {
  if (x) out_.dots.push_back({{*x, y}, {*x + kDotMm, y}});
}

void BandLines::enter(std::vector<Point>& seen, double outside, Point from, double inside, Point to, double last) {
  const double border = outside < 0 ? 0 : last;
  const double share = outside == inside ? 0 : (border - outside) / (inside - outside);
  const double y = from.y + share * (to.y - from.y);
  if (const auto x = surface_.x(border, y); x && share >= 0 && share <= 1) seen.push_back({*x, y});
}

void BandLines::finish(std::vector<Point>& seen) {
  if (seen.size() > 1) out_.lines.push_back(std::move(seen));
  seen = {};
}

}  // namespace sherd::figure
