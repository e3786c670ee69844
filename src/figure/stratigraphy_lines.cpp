#include "figure/stratigraphy_lines.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sherd::figure {
namespace {

constexpr double kNear = 0.005;  // mm

bool same(Point a, Point b) { return std::abs(a.x - b.x) < kNear && std::abs(a.y - b.y) < kNear; }

}  // namespace

// What of `of` no stretch at that place covers yet; covers it.
std::vector<SharedInk::Interval> SharedInk::uncovered(bool upright, double at, Interval of) {
  std::vector<Interval>& covered = drawn_[{upright, std::llround(at * 100)}];
  std::vector<Interval> out, kept;
  double from = of.first;
  Interval merged = of;
  for (const Interval& c : covered) {  // sorted and apart
    if (c.second < of.first - kNear || c.first > of.second + kNear) {
      kept.push_back(c);
      continue;
    }
    if (c.first > from + kNear) out.emplace_back(from, c.first);
    from = std::max(from, c.second);
    merged = {std::min(merged.first, c.first), std::max(merged.second, c.second)};
  }
  if (from < of.second - kNear) out.emplace_back(from, of.second);
  kept.insert(std::ranges::lower_bound(kept, merged), merged);
  covered = std::move(kept);
  return out;
}

std::vector<std::vector<Point>> SharedInk::fresh(const std::vector<Point>& line) {
  std::vector<std::vector<Point>> out;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const Point a = line[i], b = line[i + 1];
    const bool upright = std::abs(a.x - b.x) < kNear;
    const double from = upright ? a.y : a.x, to = upright ? b.y : b.x;
    std::vector<Interval> parts = uncovered(upright, upright ? a.x : a.y, std::minmax(from, to));
    if (to < from) std::ranges::reverse(parts);
    for (const auto& [low, high] : parts) {
      const double first = to < from ? high : low, last = to < from ? low : high;
      const Point p = upright ? Point{a.x, first} : Point{first, a.y};
      const Point q = upright ? Point{a.x, last} : Point{last, a.y};
      if (out.empty() || !same(out.back().back(), p)) out.push_back({p});
      out.back().push_back(q);
    }
  }
  return out;
}

void draw_arrow(Svg& svg, const std::vector<Point>& points) {
  if (points.size() < 2) return;
  svg.polyline(points, Paint::terminus_line, 0.5);
  const Point tip = points.back(), before = points[points.size() - 2];
  const double length = std::max(std::hypot(tip.x - before.x, tip.y - before.y), 0.01);
  const double dx = (tip.x - before.x) / length, dy = (tip.y - before.y) / length;
  constexpr double kLong = 1.7, kHalf = 0.8;
  const Point back = {tip.x - kLong * dx, tip.y - kLong * dy};
  const std::array<Point, 3> head = {
      {tip, {back.x - kHalf * dy, back.y + kHalf * dx}, {back.x + kHalf * dy, back.y - kHalf * dx}}};
  svg.polygon(head, {Paint::terminus});
}

}  // namespace sherd::figure
