#include "methods/vessel/capacity.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/numbers.h"
#include "methods/statistics/distributions.h"
#include "methods/vessel/polyline.h"
#include "methods/vessel/section.h"

namespace sherd::vessel {

namespace {

constexpr double kNormalLimit = 1.959963984540054;
constexpr double kChance = 0.05;
constexpr double kCubicMmInMl = 1000;
constexpr double kNudge = 1e-3;  // mm by which a point is moved to see what it matters

/// One stretch of the wall below the level: the part of it from a to b.
struct Frustum {
  OutlinePoint a, b;
};

std::optional<Frustum> below(OutlinePoint a, OutlinePoint b, double level) {
  if (a.z_mm >= level && b.z_mm >= level) return std::nullopt;
  const auto cut = [level](const OutlinePoint& low, OutlinePoint& high) {
    const double t = (level - low.z_mm) / (high.z_mm - low.z_mm);
    high.r_mm = low.r_mm + t * (high.r_mm - low.r_mm);
    high.z_mm = level;
  };
  if (b.z_mm > level) cut(a, b);
  if (a.z_mm > level) cut(b, a);
  return Frustum{a, b};
}

double frustum_volume(const Frustum& f) {
  return std::numbers::pi * (f.b.z_mm - f.a.z_mm) / 3 *
         (f.a.r_mm * f.a.r_mm + f.a.r_mm * f.b.r_mm + f.b.r_mm * f.b.r_mm);
}

/// Inside of one section as far up as liquid can stand: to its highest point.
Result<Outline> inside_of(const Section& section) {
  if (section.inner.empty())
    return fail("no_inner_side", "the section has no inner side", "draw the inside from the floor to the rim");
  SHERD_TRY(const Section tidy, tidy_section({section.name, {}, section.inner, {}, {}}, {.snap_mm = 0}));
  Outline inside = tidy.inner;
  const auto top = std::ranges::max_element(inside, {}, &OutlinePoint::z_mm);
  inside.erase(top + 1, inside.end());
  if (inside.size() < 2 || inside.back().z_mm <= 0)
    return fail("no_height", "the inside has no height", "z runs from the base up");
  if (const auto place = self_crossing(inside))
    return fail("side_crosses_itself", "the inner side crosses itself at z " + format_fixed(place->z_mm, 1) + " mm",
                "look for points out of order");
  return inside;
}

double radius_at(const Outline& inside, double level) {
  for (std::size_t i = inside.size(); i-- > 1;) {
    const OutlinePoint& a = inside[i - 1];
    const OutlinePoint& b = inside[i];
    if (a.z_mm <= level && b.z_mm >= level && b.z_mm > a.z_mm)
      return a.r_mm + (level - a.z_mm) / (b.z_mm - a.z_mm) * (b.r_mm - a.r_mm);
  }
  return inside.back().r_mm;
}

/// Variance from the reading of each point, by moving each a little.
double reading_variance(Outline inside, double level, bool to_rim, double error) {
  const double whole = volume_below(inside, level);
  double variance = 0;
  for (std::size_t i = 0; i < inside.size(); ++i) {
    const OutlinePoint kept = inside[i];
    inside[i].r_mm += kNudge;
    const double by_r = (volume_below(inside, level) - whole) / kNudge;
    inside[i] = kept;
    inside[i].z_mm += kNudge;
    const double new_level = to_rim && i + 1 == inside.size() ? level + kNudge : level;
    const double by_z = (volume_below(inside, new_level) - whole) / kNudge;
    inside[i] = kept;
    // On the axis a point can not be read too far in or out.
    variance += (kept.r_mm > 0 ? by_r * by_r : 0.0) + by_z * by_z;
  }
  return variance * error * error;
}

/// What a vessel gains where all radii grow by 1 mm, and where it is tilted by one radian about its rim.
struct Sensitivity {
  double by_radius = 0, by_tilt = 0;
};
Sensitivity sensitivity_of(const Outline& inside, double level) {
  Sensitivity s;
  const double rim = inside.back().z_mm;
  for (std::size_t i = 1; i < inside.size(); ++i) {
    const auto part = below(inside[i - 1], inside[i], level);
    if (!part) continue;
    const double dz = part->b.z_mm - part->a.z_mm;
    const double ra = part->a.r_mm;
    const double rb = part->b.r_mm;
    const double ha = rim - part->a.z_mm;
    const double hb = rim - part->b.z_mm;
    s.by_radius += std::numbers::pi * dz * (ra + rb);
    // 2 pi times the integral of r (rim - z) dz, both linear along the stretch.
    s.by_tilt += 2 * std::numbers::pi * dz * (2 * ra * ha + ra * hb + rb * ha + 2 * rb * hb) / 6;
  }
  return s;
}

double conjectured_part(const Outline& inside, double level) {
  double all = 0;
  double guessed = 0;
  for (std::size_t i = 1; i < inside.size(); ++i) {
    const auto part = below(inside[i - 1], inside[i], level);
    if (!part) continue;
    const double length = distance(part->a, part->b);
    all += length;
    if (inside[i].conjectured) guessed += length;
  }
  return all > 0 ? guessed / all : 0;
}

Result<void> check_settings(const CapacitySettings& settings) {
  const bool good = settings.section_error_mm >= 0 && settings.diameter_error_mm >= 0 && settings.stance_error_deg >= 0;
  if (good) return {};
  return fail(ErrorKind::usage, "bad_setting", "an error of reading is not below 0");
}

Result<double> level_of(const std::vector<Outline>& insides, const CapacitySettings& settings) {
  double rim = insides.front().back().z_mm;
  for (const Outline& inside : insides) rim = std::min(rim, inside.back().z_mm);
  if (!settings.fill_mm) return rim;
  const double fill = *settings.fill_mm;
  if (!std::isfinite(fill) || fill <= 0)
    return fail("fill_too_low", "the fill line is not above the lowest point of the inside",
                "it is counted in mm from there up");
  if (fill > rim + 1e-9)
    return fail("fill_too_high",
                "the fill line (" + format_fixed(fill, 1) + " mm) is above the rim, which stands " +
                    format_fixed(rim, 1) + " mm above the lowest point of the inside",
                "leave it out to fill the vessel to the rim");
  return std::min(fill, rim);
}

/// What the capacity may be off by: the reading of each section (`reading_mm6`, the variance of their mean), diameter
/// and stance, and what the sections differ among each other.
void add_limits(Capacity& out, double reading_mm6, const Sensitivity& mean, const CapacitySettings& settings) {
  CapacityErrors& by = out.sd_by_source;
  by.section_ml = std::sqrt(reading_mm6) / kCubicMmInMl;
  by.diameter_ml = std::abs(mean.by_radius) * settings.diameter_error_mm / 2 / kCubicMmInMl;
  by.stance_ml = std::abs(mean.by_tilt) * settings.stance_error_deg * std::numbers::pi / 180 / kCubicMmInMl;
  double variance = std::pow(by.section_ml, 2) + std::pow(by.diameter_ml, 2) + std::pow(by.stance_ml, 2);
  double limit = kNormalLimit;
  if (out.sections.size() > 1) {
    const auto n = static_cast<double>(out.sections.size());
    double squares = 0;
    for (const SectionVolume& one : out.sections) squares += std::pow(one.capacity_ml - out.capacity_ml, 2);
    by.asymmetry_ml = std::sqrt(squares / (n - 1) / n);
    // The sections' scatter holds their reading, too; the greater of the two stands.
    if (*by.asymmetry_ml > by.section_ml) {
      variance += std::pow(*by.asymmetry_ml, 2) - std::pow(by.section_ml, 2);
      limit = statistics::student_limit(kChance, n - 1);
    }
  }
  out.sd_ml = std::sqrt(variance);
  out.low95_ml = std::max(0.0, out.capacity_ml - limit * out.sd_ml);
  out.high95_ml = out.capacity_ml + limit * out.sd_ml;
}

}  // namespace

double volume_below(std::span<const OutlinePoint> inner, double level) {
  double volume = 0;
  for (std::size_t i = 1; i < inner.size(); ++i) {
    if (const auto part = below(inner[i - 1], inner[i], level)) volume += frustum_volume(*part);
  }
  return volume;
}

Result<Capacity> capacity_of(const std::vector<Section>& sections, const CapacitySettings& settings) {
  SHERD_CHECK(check_settings(settings));
  if (sections.empty())
    return fail("no_inner_side", "there is no section", "draw the inside from the floor to the rim");
  std::vector<Outline> insides;
  for (const Section& section : sections) {
    auto inside = inside_of(section);
    if (!inside) {
      inside.error().where.id = section.name;
      return fail(inside.error());
    }
    insides.push_back(std::move(*inside));
  }
  SHERD_TRY(const double level, level_of(insides, settings));
  const auto n = static_cast<double>(sections.size());
  Capacity out;
  out.to_rim = !settings.fill_mm;
  out.height_mm = out.level_mm = level;
  double reading = 0;
  Sensitivity mean;
  for (std::size_t k = 0; k < insides.size(); ++k) {
    const double volume = volume_below(insides[k], level) / kCubicMmInMl;
    out.capacity_ml += volume / n;
    if (insides.size() > 1) out.sections.push_back({sections[k].name, volume});
    reading += reading_variance(insides[k], level, out.to_rim, settings.section_error_mm) / (n * n);
    const Sensitivity s = sensitivity_of(insides[k], level);
    mean.by_radius += s.by_radius / n;
    mean.by_tilt += s.by_tilt / n;
    out.rim_diameter_mm += 2 * radius_at(insides[k], level) / n;
    out.conjectured_share += conjectured_part(insides[k], level) / n;
    for (std::size_t i = 1; i < insides[k].size(); ++i)
      out.slices += below(insides[k][i - 1], insides[k][i], level).has_value() ? 1 : 0;
  }
  out.litres = out.capacity_ml / 1000;
  add_limits(out, reading, mean, settings);
  return out;
}

}  // namespace sherd::vessel
