#include "figure/vessel_shape.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/numbers.h"
#include "figure/vessel_signs.h"

namespace sherd::figure {
namespace {

constexpr double kJoinedMm = 0.05;  // on the pot: two sides that meet
constexpr double kLevelMm = 0.06;   // of print: on one height
constexpr double kSkipTopMm = 0.7, kSkipBottomMm = 0.7;
constexpr double kVisibleMm = 0.08;
constexpr double kStubMm = 6, kPatchGapMm = 2, kPatchMm = 12;
constexpr double kCutGapMm = 2.6;

bool joined(const OutlinePoint& a, const OutlinePoint& b) {
  return std::hypot(a.r_mm - b.r_mm, a.z_mm - b.z_mm) <= kJoinedMm;
}

/// The base is there where both sides begin on the axis, or where the lower break runs up through the floor.
bool has_base(const Section& section) {
  const OutlinePoint &outer = section.outer.front(), &inner = section.inner.front();
  if (outer.r_mm <= kJoinedMm && inner.r_mm <= kJoinedMm) return true;
  double lowest = outer.z_mm;
  for (const OutlinePoint& p : section.outer) lowest = std::min(lowest, p.z_mm);
  const double up = inner.z_mm - outer.z_mm, across = std::abs(inner.r_mm - outer.r_mm);
  return up > across && section.outer.size() > 1 &&
         std::abs(section.outer[1].z_mm - outer.z_mm) < std::abs(section.outer[1].r_mm - outer.r_mm);
}

double top_of(const Section& section) {
  double top = section.outer.front().z_mm;
  for (const auto* side : {&section.outer, &section.inner}) {
    for (const OutlinePoint& p : *side) top = std::max(top, p.z_mm);
  }
  return top;
}

/// The section alone has no axis: it stands with its innermost point on the line.
void shift_to_axis(VesselShape& shape) {
  double least = 1e300;
  for (const Profile* side : {&shape.outer, &shape.inner}) {
    for (const Point& p : side->points) least = std::min(least, p.x);
  }
  for (Profile* side : {&shape.outer, &shape.inner}) {
    for (Point& p : side->points) p.x -= least;
  }
}

void find_silhouette(VesselShape& shape) {
  const std::vector<Point>& outer = shape.outer.points;
  std::size_t first = 0, last = outer.size() - 1;
  shape.bottom = std::ranges::max(outer, {}, &Point::y).y;
  for (const Point& p : shape.inner.points) shape.bottom = std::max(shape.bottom, p.y);
  if (shape.base) {
    for (std::size_t i = 0; i < outer.size(); ++i) {
      if (outer[i].y >= shape.bottom - kLevelMm) first = i;
    }
    shape.base_x = outer[first].x;
  }
  double highest = std::ranges::min(outer, {}, &Point::y).y;
  const double inner_highest = std::ranges::min(shape.inner.points, {}, &Point::y).y;
  if (shape.rim) {
    for (std::size_t i = outer.size(); i-- > first;) {
      if (outer[i].y <= highest + kLevelMm) last = i;
    }
  }
  for (std::size_t i = first; i <= last; ++i) {
    shape.silhouette.points.push_back(outer[i]);
    shape.silhouette.conjectured.push_back(shape.outer.conjectured[i]);
  }
  if (shape.rim && inner_highest < highest - kLevelMm) {
    for (std::size_t i = shape.inner.points.size(); i-- > 0;) {
      shape.silhouette.points.push_back(shape.inner.points[i]);
      shape.silhouette.conjectured.push_back(shape.inner.conjectured[i]);
      if (shape.inner.points[i].y <= inner_highest + kLevelMm) break;
    }
  }
  shape.rim_x = shape.silhouette.points.back().x;
}

void find_edges(VesselShape& shape) {
  if (!shape.settings.edges || !shape.halves) return;
  const double top = shape.rim ? kSkipTopMm : 0.3;
  const double low = shape.bottom - (shape.base ? kSkipBottomMm : 0.3);
  for (const EdgeLine& e : sharp_turns(shape.outer, top, low)) {
    const std::vector<double> x = crossings(shape.outer.points, e.y);
    if (x.empty() || e.x >= x.back() - kVisibleMm) shape.outer_edges.push_back(e);
  }
  double floor = low;
  // Where the wall of a whole pot rises from its floor is no line that anyone draws.
  if (shape.base) floor = std::min(0.85 * shape.bottom, shape.inner.points.front().y - kSkipBottomMm);
  if (shape.line_only) return;
  for (const EdgeLine& e : sharp_turns(shape.inner, top, floor)) {
    const std::vector<double> x = crossings(shape.inner.points, e.y);
    if (x.empty() || e.x <= x.front() + kVisibleMm) shape.inner_edges.push_back(e);
  }
}

/// Areas between the stretches of outer and inner side that are seen.
void find_wall(VesselShape& shape) {
  const auto seen = [](const Profile& profile) {
    std::vector<std::vector<Point>> out;
    for (ProfileRun& run : profile.runs()) {
      if (!run.conjectured) out.push_back(std::move(run.points));
    }
    return out;
  };
  std::vector<std::vector<Point>> outer = seen(shape.outer), inner = seen(shape.inner);
  for (std::size_t i = 0; i < outer.size(); ++i) {
    std::vector<Point> area = std::move(outer[i]), back;
    if (inner.size() == outer.size()) {
      back = std::move(inner[i]);
    } else {
      const auto [low, high] = std::ranges::minmax(area, {}, &Point::y);
      for (const std::vector<Point>& run : inner) {
        for (const Point& p : run) {
          if (p.y >= low.y - kLevelMm && p.y <= high.y + kLevelMm) back.push_back(p);
        }
      }
    }
    if (back.size() < 2) continue;
    area.insert(area.end(), back.rbegin(), back.rend());
    shape.wall.push_back(std::move(area));
  }
}

void find_handle(VesselShape& shape) {
  const Section& section = shape.drawing.section;
  const DrawingSettings& settings = shape.settings;
  if (!shape.halves || section.handle.size() < 3) return;
  std::vector<OutlinePoint> closed = section.handle;
  if (!joined(closed.front(), closed.back())) closed.push_back(closed.front());
  shape.handle = printed_profile(closed, shape.top_z, settings.scale, settings.smooth).points;
  const Point furthest = std::ranges::max(shape.handle, {}, &Point::x);
  shape.cut_y = furthest.y;
  if (section.handle_section.size() < 3) return;
  closed = section.handle_section;
  if (!joined(closed.front(), closed.back())) closed.push_back(closed.front());
  const auto [left, right] = std::ranges::minmax(closed, {}, &OutlinePoint::r_mm);
  const auto [low, high] = std::ranges::minmax(closed, {}, &OutlinePoint::z_mm);
  const double middle = (low.z_mm + high.z_mm) / 2, first = left.r_mm;
  for (OutlinePoint& p : closed) p.r_mm -= first;  // its own across may be negative
  shape.handle_cut = printed_profile(closed, middle, settings.scale, settings.smooth).points;
  for (Point& p : shape.handle_cut) p = {p.x + furthest.x + kCutGapMm, p.y + shape.cut_y};
}

void find_extent(VesselShape& shape) {
  double section = 0, outside = 0, above = 0, below = shape.bottom;
  for (const Profile* side : {&shape.outer, &shape.inner}) {
    for (const Point& p : side->points) section = std::max(section, p.x);
  }
  outside = shape.halves ? section : kStubMm;
  if (!shape.halves && !shape.drawing.bands.empty()) outside = kPatchGapMm + kPatchMm;
  for (const auto* part : {&shape.handle, &shape.handle_cut}) {
    for (const Point& p : *part) {
      outside = std::max(outside, p.x);
      above = std::max(above, -p.y);
      below = std::max(below, p.y);
    }
  }
  section += 0.9;  // a line outside the section for glaze or slip
  outside += 0.3;
  VesselExtent& extent = shape.extent;
  extent = {section, outside, above + 0.3, below};
  const double words = words_width_mm(shape);
  const double middle = words_middle(shape);
  extent.left = std::max(extent.left, words / 2 - middle);
  extent.right = std::max(extent.right, words / 2 + middle);
  extent.below += words_height_mm(shape);
  if (!shape.settings.section_left) std::swap(extent.left, extent.right);
}

}  // namespace

std::optional<double> VesselShape::outer_at(double y) const {
  const std::vector<double> x = crossings(outer.points, y);
  return x.empty() ? std::nullopt : std::optional(x.back());
}

std::optional<double> VesselShape::inner_at(double y) const {
  const std::vector<double> x = crossings(inner.points, y);
  return x.empty() ? std::nullopt : std::optional(x.front());
}

VesselShape shape_of(const VesselDrawing& drawing, const DrawingSettings& given) {
  VesselShape shape;
  shape.drawing = drawing;
  shape.settings = given;
  shape.settings.scale = given.scale > 0 && std::isfinite(given.scale) ? given.scale : 4;
  shape.settings.outline_mm = std::max(given.outline_mm, 0.25);
  shape.settings.line_mm = std::max(given.line_mm, 0.25);
  Section& section = shape.drawing.section;
  if (section.outer.size() < 2) section.outer = section.inner;
  if (section.inner.size() < 2) section.inner = section.outer;
  shape.line_only = section.inner == section.outer;
  if (section.outer.size() < 2) {
    shape.empty = true;
    shape.extent = {15, 15, 0.3, 8};
    return shape;
  }
  shape.rim = joined(section.outer.back(), section.inner.back());
  shape.base = has_base(section);
  shape.halves = drawing.diameter != DiameterKnown::unknown;
  shape.top_z = top_of(section);
  const bool smooth = shape.settings.smooth;
  shape.outer = printed_profile(section.outer, shape.top_z, shape.settings.scale, smooth);
  shape.inner = printed_profile(section.inner, shape.top_z, shape.settings.scale, smooth);
  if (!shape.halves) shift_to_axis(shape);
  find_silhouette(shape);
  find_edges(shape);
  if (!shape.line_only) find_wall(shape);
  find_handle(shape);
  find_extent(shape);
  return shape;
}

}  // namespace sherd::figure
