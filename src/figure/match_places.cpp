#include "figure/match_places.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "figure/frame.h"

namespace sherd::figure {
namespace {

constexpr double kGap = 5;                     // mm between panels
constexpr double kLeastPanel = 36;             // mm wide
constexpr double kMostHeight = 78;             // mm of a panel's drawing
constexpr double kBeyondAxis = 2.5;            // mm that the axis stands free
constexpr std::string_view kClay = "#8A8378";  // of a known wall, on light and dark alike
constexpr double kClayOpacity = 0.4;
constexpr double kBar = 50;  // mm of the vessel that the scale bar shows
constexpr std::array<double, 10> kScales{1, 2, 3, 4, 5, 6, 8, 10, 15, 20};

using Outline = std::vector<OutlinePoint>;

/// What a panel takes, in mm of the vessel.
struct Extent {
  double r = 0, low = 1e300, high = -1e300;

  void take(const Outline& outline) {
    for (const OutlinePoint& point : outline) {
      r = std::max(r, point.r_mm);
      low = std::min(low, point.z_mm);
      high = std::max(high, point.z_mm);
    }
  }
};

Extent extent_of(const MatchPanel& panel) {
  Extent extent;
  for (const Outline* outline : {&panel.known_outer, &panel.known_inner, &panel.fragment_outer, &panel.fragment_inner})
    extent.take(*outline);
  return extent;
}

struct Layout {
  std::size_t columns = 1;
  double panel = 0;   ///< mm wide
  double scale = 20;  ///< 4 of 1:4
  double words = 0;   ///< mm below a drawing
};

Layout layout_of(const MatchPlacesData& data, const Page& page) {
  Layout layout;
  layout.columns = std::max<std::size_t>(1, static_cast<std::size_t>((page.width_mm + kGap) / (kLeastPanel + kGap)));
  layout.columns = std::min({layout.columns, data.panels.size(), std::size_t{4}});
  const auto columns = static_cast<double>(layout.columns);
  layout.panel = (page.width_mm - (columns - 1) * kGap) / columns;
  double r = 1;
  double height = 1;
  for (const MatchPanel& panel : data.panels) {
    const Extent extent = extent_of(panel);
    r = std::max(r, extent.r);
    height = std::max(height, extent.high - extent.low);
  }
  const auto fits = [&](double scale) {
    return r / scale + kBeyondAxis + 0.5 <= layout.panel && height / scale <= kMostHeight;
  };
  const auto found = std::ranges::find_if(kScales, fits);
  layout.scale = found == kScales.end() ? kScales.back() : *found;
  layout.words = line_mm(kNamePoints) + line_mm(kNotePoints) + 3;
  return layout;
}

/// From the vessel to the page: section to the left of the axis.
struct Frame {
  double axis_x = 0, top = 0, high = 0, scale = 1;

  Point at(const OutlinePoint& point) const { return {axis_x - point.r_mm / scale, top + (high - point.z_mm) / scale}; }
  std::vector<Point> at(const Outline& outline) const {
    std::vector<Point> points;
    for (const OutlinePoint& point : outline) points.push_back(at(point));
    return points;
  }
};

/// Outer side up, inner side down.
std::vector<Point> wall_of(const Frame& frame, const Outline& outer, const Outline& inner) {
  std::vector<Point> corners = frame.at(outer);
  const std::vector<Point> back = frame.at(inner);
  corners.insert(corners.end(), back.rbegin(), back.rend());
  return corners;
}

void draw_panel(Svg& svg, const MatchPanel& panel, const Frame& frame, double bottom, double left, double width) {
  svg.begin_mark(panel.name + ": " + panel.words, panel.data_set);
  svg.line({frame.axis_x, frame.top - 1}, {frame.axis_x, bottom + 1}, Paint::axis, 0.25);
  if (panel.known_inner.empty()) {
    svg.polyline(frame.at(panel.known_outer), Paint::other_line, 0.5);
  } else {
    const std::vector<Point> wall = wall_of(frame, panel.known_outer, panel.known_inner);
    svg.tint(wall, kClay, kClayOpacity);
    svg.polygon(wall, {.outline = Paint::other_line, .line_mm = 0.25});
  }
  std::vector<std::vector<Point>> lines{frame.at(panel.fragment_outer)};
  if (!panel.fragment_inner.empty()) {
    lines.clear();
    lines.push_back(wall_of(frame, panel.fragment_outer, panel.fragment_inner));
    lines.back().push_back(lines.back().front());
  }
  svg.strokes(lines, {.outline = Paint::halo, .line_mm = 1.1});
  svg.strokes(lines, {.outline = Paint::mark_line, .line_mm = 0.5});
  const double right = left + width;
  svg.text({right, bottom + 3 + line_mm(kNamePoints) * 0.75}, fitted(panel.name, Face::sans_strong, kNamePoints, width),
           {kNamePoints, Face::sans_strong, Paint::ink, Anchor::end}, panel.name);
  svg.text({right, bottom + 3 + line_mm(kNamePoints) + line_mm(kNotePoints) * 0.75},
           fitted(panel.words, Face::sans, kNotePoints, width), {kNotePoints, Face::sans, Paint::quiet, Anchor::end},
           panel.words);
  svg.end_mark();
}

void draw_scale_bar(Svg& svg, double top, double scale) {
  const double length = kBar / scale;
  svg.line({0, top}, {length, top}, Paint::ink_line, 0.5);
  for (const double x : {0.0, length}) svg.line({x, top - 1}, {x, top + 1}, Paint::ink_line, 0.25);
  svg.text({length + 2, top + 0.9}, fmt::format("50 mm, 1:{:g}", scale), {kNotePoints, Face::sans, Paint::quiet});
}

}  // namespace

std::string match_places(const MatchPlacesData& data, const Page& wanted) {
  if (data.panels.empty()) return empty_figure(data.about, wanted, "Nothing to lay it on");
  const Page page = usable(wanted);
  const Layout layout = layout_of(data, page);
  Svg svg;
  double top = 2;
  for (std::size_t first = 0; first < data.panels.size(); first += layout.columns) {
    const std::size_t last = std::min(first + layout.columns, data.panels.size());
    double height = 0;
    for (std::size_t i = first; i < last; ++i) {
      const Extent extent = extent_of(data.panels[i]);
      height = std::max(height, (extent.high - extent.low) / layout.scale);
    }
    for (std::size_t i = first; i < last; ++i) {
      const double left = static_cast<double>(i - first) * (layout.panel + kGap);
      const Frame frame{left + layout.panel - 0.5, top, extent_of(data.panels[i]).high, layout.scale};
      draw_panel(svg, data.panels[i], frame, top + height, left, layout.panel);
    }
    top += height + layout.words + kGap;
  }
  top += 1;
  draw_scale_bar(svg, top, layout.scale);
  const auto notes = note_lines(data.about.left_out, page.width_mm);
  draw_notes(svg, notes, top + 3);
  return svg.finish(page.width_mm, top + 4 + notes_mm(notes), data.about.title);
}

}  // namespace sherd::figure
