#include "figure/xy.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/text.h"
#include "figure/plane.h"
#include "figure/point_labels.h"
#include "figure/xy_marks.h"

namespace sherd::figure {
namespace {

constexpr double kLargest = 1e100;
constexpr double kMarginShare = 0.05;

bool is_drawable(double value) { return std::abs(value) <= kLargest; }
bool is_drawable(const XyPoint& point) { return is_drawable(point.x) && is_drawable(point.y); }

struct Ends {
  double low = 0, high = 0;
  bool any = false;
  void add(double value) {
    if (!is_drawable(value)) return;
    low = any ? std::min(low, value) : value;
    high = any ? std::max(high, value) : value;
    any = true;
  }
  Domain domain(bool from_zero) const {
    double from = from_zero ? std::min(low, 0.0) : low;
    double to = from_zero ? std::max(high, 0.0) : high;
    const double margin = to > from ? (to - from) * kMarginShare : std::max(0.5, std::abs(to) * 0.1);
    from -= from_zero && from == 0 ? 0 : margin;
    return {from, to + margin};
  }
};

void add_ring(const Ring& ring, Ends& x, Ends& y) {
  const double turn = ring.angle_degrees * std::numbers::pi / 180;
  const double across = std::hypot(ring.major * std::cos(turn), ring.minor * std::sin(turn));
  const double up = std::hypot(ring.major * std::sin(turn), ring.minor * std::cos(turn));
  for (const double sign : {-1.0, 1.0}) {
    x.add(ring.x + sign * across);
    y.add(ring.y + sign * up);
  }
}

/// With x by its logarithm where that is asked for; what has none is left out.
XyData as_drawn(XyData data) {
  if (!data.x_log) return data;
  std::erase_if(data.points, [](const XyPoint& point) { return !(point.x > 0); });
  for (XyPoint& point : data.points) point.x = std::log10(point.x);
  for (XyCurve& curve : data.curves) {
    for (Point& point : curve.points) point.x = std::log10(std::max(point.x, 1e-9));
  }
  data.x_from_zero = false;
  return data;
}

PlaneRequest request_of(const XyData& data, const Page& page) {
  Ends x, y;
  for (const XyPoint& point : data.points) {
    if (!is_drawable(point)) continue;
    x.add(point.x);
    y.add(point.y);
    if (point.low && point.high) {
      y.add(*point.low);
      y.add(*point.high);
    }
    if (point.ring) add_ring(*point.ring, x, y);
  }
  for (const XyCurve& curve : data.curves) {
    for (const Point& point : curve.points) {
      x.add(point.x);
      y.add(point.y);
    }
    for (const double value : curve.low) y.add(value);
    for (const double value : curve.high) y.add(value);
  }
  PlaneRequest request;
  request.about = data.about;
  request.page = page;
  request.x_title = data.x_title;
  request.y_title = data.y_title;
  request.x = x.domain(data.x_from_zero);
  request.y = y.domain(data.y_from_zero);
  request.same_scale = data.same_scale;
  request.with_ticks = data.with_ticks;
  request.x_log = data.x_log;
  request.height_share = data.height_share;
  for (const XyGroup& group : data.legend) {
    request.legend.push_back({group.words, [group](Svg& svg, const Box& box) { draw_sample(svg, box, group); }});
  }
  return request;
}

void draw_scale_bar(Svg& svg, const XyData& data, const Plane& plane) {
  if (!data.scale_bar) return;
  const double length = plane.x.mm(*data.scale_bar) - plane.x.mm(0);
  const double y = plane.plot.bottom() - 2, x = plane.plot.x + 2;
  const std::vector<Segment> strokes{
      {{x, y}, {x + length, y}}, {{x, y - 1}, {x, y}}, {{x + length, y - 1}, {x + length, y}}};
  svg.lines(strokes, Paint::ink_line, 0.4);
  svg.text({x, y - 1.6}, data.scale_words, {kTickPoints, Face::sans, Paint::ink, Anchor::start, true});
}

Box scale_bar_box(const XyData& data, const Plane& plane) {
  const double length = plane.x.mm(*data.scale_bar) - plane.x.mm(0);
  return {plane.plot.x, plane.plot.bottom() - 6.5,
          4 + std::max(length, text_width_mm(data.scale_words, Face::sans, kTickPoints)), 6.5};
}

// The end of each curve wants its name, the points theirs.
std::vector<Labelled> wanted_labels(const XyData& data, const Plane& plane) {
  std::vector<Labelled> out;
  for (const XyPoint& point : data.points) {
    if (!is_drawable(point)) continue;
    out.push_back({{plane.x.mm(point.x), plane.y.mm(point.y)}, point.radius_mm, point.label});
  }
  for (const XyCurve& curve : data.curves) {
    if (curve.points.empty() || curve.label.empty()) continue;
    const Point end = curve.points.back();
    out.push_back({{plane.x.mm(end.x), plane.y.mm(end.y)}, 0.4, curve.label});
  }
  return out;
}

// What names had better not lie on: stretches of curves, the outlines of rings.
std::vector<Box> lines_of(const XyData& data, const Plane& plane) {
  constexpr double kHalfMm = 0.35, kStepMm = 1.2;
  std::vector<Box> out;
  for (const XyCurve& curve : data.curves) {
    for (std::size_t i = 1; i < curve.points.size(); ++i) {
      const Point a{plane.x.mm(curve.points[i - 1].x), plane.y.mm(curve.points[i - 1].y)};
      const Point b{plane.x.mm(curve.points[i].x), plane.y.mm(curve.points[i].y)};
      const double length = std::hypot(b.x - a.x, b.y - a.y);
      const auto steps = static_cast<int>(std::clamp(length / kStepMm, 1.0, 200.0));
      for (int k = 0; k <= steps; ++k) {
        const double part = static_cast<double>(k) / steps;
        out.push_back(
            {a.x + part * (b.x - a.x) - kHalfMm, a.y + part * (b.y - a.y) - kHalfMm, 2 * kHalfMm, 2 * kHalfMm});
      }
    }
  }
  if (data.axes_through_zero) {
    const Box& plot = plane.plot;
    out.push_back({plane.x.mm(0) - kHalfMm, plot.y, 2 * kHalfMm, plot.height});
    out.push_back({plot.x, plane.y.mm(0) - kHalfMm, plot.width, 2 * kHalfMm});
  }
  for (const XyPoint& point : data.points) {
    if (!point.ring) continue;
    for (const Point& at : ring_on_page(*point.ring, plane))
      out.push_back({at.x - kHalfMm, at.y - kHalfMm, 2 * kHalfMm, 2 * kHalfMm});
  }
  return out;
}

void draw_labels(Svg& svg, const std::vector<Labelled>& wanted, const std::vector<std::optional<PlacedLabel>>& placed) {
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (placed[i]) svg.text(placed[i]->at, wanted[i].text, {kTickPoints, Face::sans, Paint::ink, placed[i]->anchor});
  }
}

}  // namespace

std::string xy(const XyData& asked, const Page& page) {
  const XyData data = as_drawn(asked);
  const bool any_point = std::ranges::any_of(data.points, [](const XyPoint& point) { return is_drawable(point); });
  const bool any_curve = std::ranges::any_of(data.curves, [](const XyCurve& curve) { return !curve.points.empty(); });
  if (!any_point && !any_curve) return empty_figure(data.about, page, data.nothing);
  PlaneRequest request = request_of(data, page);
  Plane plane = place_plane(request);
  const std::vector<Labelled> wanted = wanted_labels(data, plane);
  const std::vector<Box> taken = data.scale_bar ? std::vector<Box>{scale_bar_box(data, plane)} : std::vector<Box>{};
  auto placed = place_labels(wanted, plane.plot, taken, lines_of(data, plane));
  std::int64_t unnamed = 0;
  for (std::size_t i = 0; i < wanted.size(); ++i) unnamed += !placed[i] && !wanted[i].text.empty() ? 1 : 0;
  if (unnamed > 0) {
    request.notes.push_back(counted(unnamed, "name") + " for which there is no room " + (unnamed == 1 ? "is" : "are") +
                            " left out.");
    plane = place_plane(request);
    placed = place_labels(wanted_labels(data, plane), plane.plot, taken, lines_of(data, plane));
  }
  Svg svg;
  draw_plane(svg, request, plane);
  if (data.axes_through_zero) {
    const double x = plane.x.mm(0), y = plane.y.mm(0);
    const Box& plot = plane.plot;
    if (x > plot.x && x < plot.right()) svg.line({x, plot.y}, {x, plot.bottom()}, Paint::axis, 0.25);
    if (y > plot.y && y < plot.bottom()) svg.line({plot.x, y}, {plot.right(), y}, Paint::axis, 0.25);
  }
  for (const XyCurve& curve : data.curves) draw_band(svg, curve, plane);
  for (const XyCurve& curve : data.curves) draw_curve(svg, curve, plane);
  for (const XyPoint& point : data.points) {
    if (is_drawable(point)) draw_point(svg, point, plane);
  }
  draw_scale_bar(svg, data, plane);
  draw_labels(svg, wanted_labels(data, plane), placed);
  return svg.finish(plane.width, plane.height, data.about.title);
}

}  // namespace sherd::figure
