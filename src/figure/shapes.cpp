#include "figure/shapes.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sherd::figure {
namespace {

constexpr double kTextureMm = 1.3;    // between the lines of a texture
constexpr double kTextureLine = 0.3;  // their width

// Lines at 45 degrees: x + y = c where they rise to the right on the page, x - y = c where they fall.
std::vector<Segment> slanted(const Box& box, bool rising, double spacing_mm) {
  std::vector<Segment> out;
  const double step = spacing_mm * std::sqrt(2.0), reach = box.width + box.height;
  for (double c = step / 2; c < reach; c += step) {
    const double x0 = std::max(0.0, c - box.height), x1 = std::min(box.width, c);
    const auto point = [&](double x) {
      const double up = c - x;
      return Point{box.x + x, rising ? box.y + up : box.bottom() - up};
    };
    out.push_back({point(x0), point(x1)});
  }
  return out;
}

std::vector<Segment> straight(const Box& box, bool upright, double spacing_mm) {
  std::vector<Segment> out;
  const double reach = upright ? box.width : box.height;
  for (double c = spacing_mm / 2; c < reach; c += spacing_mm) {
    out.push_back(upright ? Segment{{box.x + c, box.y}, {box.x + c, box.bottom()}}
                          : Segment{{box.x, box.y + c}, {box.right(), box.y + c}});
  }
  return out;
}

}  // namespace

std::vector<Segment> hatching(const Box& box, Slope slope, double spacing_mm) {
  if (!(box.width > 0) || !(box.height > 0) || !(spacing_mm > 0)) return {};
  if (slope == Slope::rising || slope == Slope::falling) return slanted(box, slope == Slope::rising, spacing_mm);
  return straight(box, slope == Slope::upright, spacing_mm);
}

std::vector<Point> arrowhead(Point tip, double length_mm, double half_height_mm, int direction) {
  const double back = tip.x - direction * length_mm;
  return {tip, {back, tip.y - half_height_mm}, {back, tip.y + half_height_mm}};
}

void draw_line_over(Svg& svg, std::span<const Segment> segments, Paint outline, double line_mm, double rim_mm) {
  svg.lines(segments, Paint::halo, line_mm + 2 * rim_mm);
  svg.lines(segments, outline, line_mm);
}

void draw_interval(Svg& svg, double from_x, double to_x, double y, double half_height_mm) {
  const std::array<Segment, 3> strokes = {{{{from_x, y}, {to_x, y}},
                                           {{from_x, y - half_height_mm}, {from_x, y + half_height_mm}},
                                           {{to_x, y - half_height_mm}, {to_x, y + half_height_mm}}}};
  draw_line_over(svg, strokes, Paint::ink_line, 0.3);
}

void draw_dashed(Svg& svg, std::span<const Point> points, Paint outline, double line_mm) {
  constexpr double kDashMm = 1.1, kGapMm = 0.8;
  std::vector<Segment> dashes;
  double into = 0;  // how far the pattern has got where a stretch begins
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const Point a = points[i], b = points[i + 1];
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    const auto at = [&](double mm) { return Point{a.x + (b.x - a.x) * mm / length, a.y + (b.y - a.y) * mm / length}; };
    for (double from = -into; length > 0 && from < length; from += kDashMm + kGapMm) {
      if (from + kDashMm > 0) dashes.push_back({at(std::max(from, 0.0)), at(std::min(from + kDashMm, length))});
    }
    into = std::fmod(into + length, kDashMm + kGapMm);
  }
  svg.lines(dashes, outline, line_mm);
}

void draw_category(Svg& svg, const Box& box, std::size_t i) {
  svg.rect(box, {category(i)});
  constexpr std::array<Slope, 4> kSlopes = {Slope::rising, Slope::falling, Slope::upright, Slope::level};
  if (i < kSlopes.size()) return;
  svg.lines(hatching(box, kSlopes[i % kSlopes.size()], kTextureMm), Paint::halo, kTextureLine);
}

void draw_other(Svg& svg, const Box& box) {
  constexpr double kLine = 0.25;
  if (box.width <= kLine) return svg.rect(box, {Paint::other});
  svg.rect({box.x + kLine / 2, box.y + kLine / 2, box.width - kLine, box.height - kLine},
           {Paint::other, Paint::other_line, kLine});
}

}  // namespace sherd::figure
