#include "figure/xy_marks.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "figure/shapes.h"

namespace sherd::figure {
namespace {

constexpr double kCurveMm = 0.45;
constexpr double kOutlineMm = 0.35;
constexpr int kRingCorners = 60;

Look look_of(std::size_t colour, bool hollow) {
  if (!hollow) return {category(colour), Paint::halo, 0.25};
  return {Paint::plate, category_line(colour), kOutlineMm};
}

void draw_symbol(Svg& svg, Point at, double r, Symbol symbol, std::size_t colour, bool hollow) {
  const Look look = look_of(colour, hollow);
  if (symbol == Symbol::dot) return svg.circle(at, r, look);
  if (symbol == Symbol::square) return svg.rect({at.x - 0.9 * r, at.y - 0.9 * r, 1.8 * r, 1.8 * r}, look);
  if (symbol == Symbol::triangle) {
    const std::vector<Point> corners{
        {at.x, at.y - 1.15 * r}, {at.x + 1.1 * r, at.y + 0.8 * r}, {at.x - 1.1 * r, at.y + 0.8 * r}};
    return svg.polygon(corners, look);
  }
  const std::vector<Segment> strokes{{{at.x - r, at.y}, {at.x + r, at.y}}, {{at.x, at.y - r}, {at.x, at.y + r}}};
  svg.lines(strokes, category_line(colour), kCurveMm);
}

std::vector<Point> on_page(std::span<const Point> points, const Plane& plane) {
  std::vector<Point> out;
  out.reserve(points.size());
  for (const Point& point : points) out.push_back({plane.x.mm(point.x), plane.y.mm(point.y)});
  return out;
}

void draw_path(Svg& svg, std::span<const Point> points, std::size_t colour, bool dashed) {
  if (!dashed) return svg.polyline(points, category_line(colour), kCurveMm);
  draw_dashed(svg, points, category_line(colour), kCurveMm);
}

}  // namespace

std::vector<Point> ring_on_page(const Ring& ring, const Plane& plane) {
  const double turn = ring.angle_degrees * std::numbers::pi / 180;
  std::vector<Point> corners;
  for (int i = 0; i < kRingCorners; ++i) {
    const double t = 2 * std::numbers::pi * i / kRingCorners;
    const double u = ring.major * std::cos(t), v = ring.minor * std::sin(t);
    corners.push_back(
        {ring.x + u * std::cos(turn) - v * std::sin(turn), ring.y + u * std::sin(turn) + v * std::cos(turn)});
  }
  return on_page(corners, plane);
}

void draw_sample(Svg& svg, const Box& box, const XyGroup& group) {
  const Point middle{box.x + box.width / 2, box.y + box.height / 2};
  if (group.curve) {
    const std::vector<Point> line{{box.x, middle.y}, {box.right(), middle.y}};
    return draw_path(svg, line, group.colour, group.dashed);
  }
  draw_symbol(svg, middle, 1.05, group.symbol, group.colour, group.hollow);
}

void draw_band(Svg& svg, const XyCurve& curve, const Plane& plane) {
  const std::size_t n = std::min({curve.points.size(), curve.low.size(), curve.high.size()});
  if (n < 2) return;
  std::vector<Point> corners;
  for (std::size_t i = 0; i < n; ++i) corners.push_back({curve.points[i].x, curve.high[i]});
  for (std::size_t i = n; i-- > 0;) corners.push_back({curve.points[i].x, curve.low[i]});
  svg.polygon(on_page(corners, plane), {category(curve.colour), Paint::none, 0.25, false, false, 0.14});
}

void draw_curve(Svg& svg, const XyCurve& curve, const Plane& plane) {
  if (curve.points.empty()) return;
  svg.begin_mark(curve.words.empty() ? curve.label : curve.words, curve.data_set);
  draw_path(svg, on_page(curve.points, plane), curve.colour, curve.dashed);
  svg.end_mark();
}

void draw_point(Svg& svg, const XyPoint& point, const Plane& plane) {
  const Point at{plane.x.mm(point.x), plane.y.mm(point.y)};
  const bool both = !point.words.empty() && !point.label.empty();
  svg.begin_mark(both ? point.label + ": " + point.words : point.label + point.words, point.data_set);
  if (point.ring)
    svg.polygon(ring_on_page(*point.ring, plane),
                {category(point.colour), category_line(point.colour), 0.25, false, false, 0.05});
  if (point.low && point.high) {
    const double low = plane.y.mm(*point.low), high = plane.y.mm(*point.high);
    svg.line({at.x, low}, {at.x, high}, category_line(point.colour), kCurveMm);
  }
  draw_symbol(svg, at, point.radius_mm, point.symbol, point.colour, point.hollow);
  svg.end_mark();
}

}  // namespace sherd::figure
