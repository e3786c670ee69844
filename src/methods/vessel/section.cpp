#include "methods/vessel/section.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/numbers.h"
#include "methods/vessel/polyline.h"

namespace sherd::vessel {

namespace {

constexpr double kSamePlace = 1e-6;
constexpr double kStandsWithin = 0.5;  // mm above the lowest point that still stands on the table
constexpr double kEdge = 3;            // mm from the rim's edge that are no wall; at least twice the wall's thickness
constexpr std::size_t kWallPoints = 120;
constexpr std::size_t kMostPoints = 10'000;  // of a side
constexpr double kLargest = 10'000;          // mm: beyond every vessel

bool runs_down(const Outline& side, double snap) {
  const bool first_on_axis = side.front().r_mm <= snap;
  const bool last_on_axis = side.back().r_mm <= snap;
  if (first_on_axis != last_on_axis) return last_on_axis;
  return side.back().z_mm < side.front().z_mm;
}

Result<void> check_size(const Outline& side, std::string_view name) {
  const auto [low, high] = std::ranges::minmax(side, {}, &OutlinePoint::z_mm);
  const double widest = std::ranges::max(side, {}, &OutlinePoint::r_mm).r_mm;
  if (widest <= kLargest && high.z_mm - low.z_mm <= kLargest) return {};
  return fail("too_large", "the " + std::string(name) + " side reaches more than 10 m",
              "no vessel does: all lengths are in mm; check the scale");
}

Result<void> tidy_side(Outline& side, std::string_view name, double snap) {
  if (side.size() > kMostPoints)
    return fail("too_many_points", "the " + std::string(name) + " side has more than 10,000 points",
                "a point every half millimetre is enough");
  for (const OutlinePoint& point : side) {
    if (!std::isfinite(point.r_mm) || !std::isfinite(point.z_mm))
      return fail("not_a_number", "a point of the " + std::string(name) + " side is not a number",
                  "give r and z of each point in mm");
    if (point.r_mm < -std::max(snap, kStandsWithin))
      return fail(
          "beyond_axis",
          "a point of the " + std::string(name) + " side lies " + format_fixed(-point.r_mm, 1) + " mm beyond the axis",
          "r is the distance from the axis: check where the axis was set");
  }
  SHERD_CHECK(check_size(side, name));
  if (runs_down(side, snap)) {
    // A stretch keeps its flag, which stands at its upper end.
    for (std::size_t i = 0; i + 1 < side.size(); ++i) side[i].conjectured = side[i + 1].conjectured;
    std::ranges::reverse(side);
  }
  Outline kept;
  for (OutlinePoint point : side) {
    point.r_mm = std::max(0.0, point.r_mm);
    if (kept.empty() || distance(kept.back(), point) > kSamePlace) kept.push_back(point);
  }
  side = std::move(kept);
  if (side.size() < 2)
    return fail("too_few_points", "the " + std::string(name) + " side has fewer than two points",
                "give its points from the base to the rim");
  for (OutlinePoint* end : {&side.front(), &side.back()}) {
    if (end->r_mm <= snap) end->r_mm = 0;
  }
  side.front().conjectured = false;
  return {};
}

double lowest(const Section& section) {
  double z = 1e300;
  for (const Outline* side : {&section.outer, &section.inner}) {
    for (const OutlinePoint& point : *side) z = std::min(z, point.z_mm);
  }
  return z;
}

void move_up(Section& section, double by) {
  for (Outline* side : {&section.outer, &section.inner, &section.handle}) {
    for (OutlinePoint& point : *side) point.z_mm += by;
  }
}

}  // namespace

Result<Section> tidy_section(Section section, const SectionSettings& settings) {
  if (section.outer.empty() && section.inner.empty())
    return fail("no_side", "the section has neither an outer nor an inner side", "give the points of at least one");
  if (!section.outer.empty()) SHERD_CHECK(tidy_side(section.outer, "outer", settings.snap_mm));
  if (!section.inner.empty()) SHERD_CHECK(tidy_side(section.inner, "inner", settings.snap_mm));
  if (!section.outer.empty() && !section.inner.empty() &&
      distance(section.outer.back(), section.inner.back()) <= settings.snap_mm) {
    const bool conjectured = section.inner.back().conjectured;
    section.inner.back() = section.outer.back();
    section.inner.back().conjectured = conjectured;
  }
  if (settings.move_to_zero) move_up(section, -lowest(section));
  return section;
}

std::vector<WallPoint> wall_thickness(const Section& section) {
  std::vector<WallPoint> wall;
  if (section.outer.size() < 2 || section.inner.size() < 2) return wall;
  const double rim_length = length_of(section.outer);
  const double inner_length = length_of(section.inner);
  const bool has_rim =
      section.outer.back() == section.inner.back() || distance(section.outer.back(), section.inner.back()) < kSamePlace;
  const Outline points = resampled(section.outer, kWallPoints);
  const auto along = lengths_along(points);
  std::vector<double> from_rim;
  std::vector<double> sorted;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Nearest nearest = nearest_on(section.inner, points[i]);
    const bool at_end = nearest.along <= 0 || nearest.along >= inner_length;
    const bool on_axis = nearest.point.r_mm <= 0 && points[i].r_mm <= 0;
    if (at_end && !on_axis) continue;
    wall.push_back({points[i], nearest.distance});
    sorted.push_back(nearest.distance);
    from_rim.push_back(rim_length - along[i]);
  }
  if (!has_rim || wall.empty()) return wall;
  std::ranges::sort(sorted);
  const double edge = std::max(kEdge, 2 * sorted[sorted.size() / 2]);
  std::vector<WallPoint> away;
  for (std::size_t i = 0; i < wall.size(); ++i) {
    if (from_rim[i] >= edge) away.push_back(wall[i]);
  }
  return away;
}

SectionMeasures measure_section(const Section& section) {
  SectionMeasures m;
  const Outline& side = section.outer.empty() ? section.inner : section.outer;
  double top = -1e300;
  double conjectured = 0;
  for (const Outline* each : {&section.outer, &section.inner}) {
    for (const OutlinePoint& point : *each) {
      top = std::max(top, point.z_mm);
      m.greatest_diameter_mm = std::max(m.greatest_diameter_mm.value_or(0), 2 * point.r_mm);
    }
  }
  const double bottom = lowest(section);
  m.height_mm = top - bottom;
  m.outline_mm = length_of(side);
  for (std::size_t i = 1; i < side.size(); ++i) {
    if (side[i].conjectured) conjectured += distance(side[i - 1], side[i]);
  }
  if (m.outline_mm > 0) m.conjectured_share = conjectured / m.outline_mm;
  m.has_rim = !section.outer.empty() && !section.inner.empty() &&
              distance(section.outer.back(), section.inner.back()) < kSamePlace;
  m.has_base = side.front().r_mm <= 0;
  if (m.has_rim) m.rim_diameter_mm = 2 * section.outer.back().r_mm;
  if (m.has_base) {
    double stands = 0;
    for (const OutlinePoint& point : side) {
      if (point.z_mm <= bottom + kStandsWithin) stands = std::max(stands, point.r_mm);
    }
    m.base_diameter_mm = 2 * stands;
  }
  std::vector<double> wall;
  for (const WallPoint& point : wall_thickness(section)) wall.push_back(point.thickness_mm);
  if (!wall.empty()) {
    std::ranges::sort(wall);
    m.least_wall_mm = wall.front();
    m.middle_wall_mm = wall[wall.size() / 2];
    m.greatest_wall_mm = wall.back();
  }
  return m;
}

Result<Section> set_up(const Section& section, double tilt_deg, std::optional<double> rim_radius_mm) {
  Section out = section;
  const Outline& side = section.outer.empty() ? section.inner : section.outer;
  const OutlinePoint rim = side.back();
  const double angle = tilt_deg * std::numbers::pi / 180;
  const double r0 = rim_radius_mm.value_or(rim.r_mm);
  for (Outline* each : {&out.outer, &out.inner, &out.handle}) {
    for (OutlinePoint& point : *each) {
      const double r = point.r_mm - rim.r_mm;
      const double z = point.z_mm - rim.z_mm;
      point.r_mm = r0 + r * std::cos(angle) + z * std::sin(angle);
      point.z_mm = rim.z_mm - r * std::sin(angle) + z * std::cos(angle);
      if (each != &out.handle && point.r_mm < -kStandsWithin)
        return fail("beyond_axis", "set up so, part of the section lies beyond the axis",
                    "the diameter is too small for it, or the tilt too great");
      if (each != &out.handle) point.r_mm = std::max(0.0, point.r_mm);
    }
  }
  move_up(out, -lowest(out));
  return out;
}

}  // namespace sherd::vessel
