#include "methods/vessel/five_measures.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sherd::vessel {

namespace {

constexpr double kBodyShare = 0.64;
constexpr double kShortCutError = 0.04;
constexpr double kNormalLimit = 1.959963984540054;

double frustum(double a, double b, double height) { return std::numbers::pi * height / 3 * (a * a + a * b + b * b); }

}  // namespace

Result<Capacity> capacity_by_measures(const FiveMeasures& m) {
  for (const double value : {m.rim_mm, m.neck_mm, m.shoulder_mm, m.height_mm, m.neck_height_mm, m.wall_mm}) {
    if (!std::isfinite(value) || value < 0) return fail("not_a_number", "a measure is not a number, or below 0");
  }
  if (m.height_mm <= 0 || m.shoulder_mm <= 0 || m.rim_mm <= 0 || m.neck_mm <= 0)
    return fail("no_height", "rim, neck, shoulder and height are all above 0", "give all five measures in mm");
  if (m.neck_height_mm >= m.height_mm)
    return fail("neck_too_high", "the neck is as high as the whole vessel",
                "the neck runs from the shoulder to the rim");
  const double least = std::min({m.rim_mm, m.neck_mm, m.shoulder_mm});
  if (2 * m.wall_mm >= least || m.wall_mm >= m.height_mm - m.neck_height_mm)
    return fail("wall_too_thick", "the wall leaves no room inside", "check the unit: all measures are in mm");
  const double rim = m.rim_mm / 2 - m.wall_mm;
  const double neck = m.neck_mm / 2 - m.wall_mm;
  const double shoulder = m.shoulder_mm / 2 - m.wall_mm;
  const double body = m.height_mm - m.neck_height_mm - m.wall_mm;
  const double half = m.neck_height_mm / 2;
  Capacity out;
  out.method = "five measures";
  out.capacity_ml = (kBodyShare * std::numbers::pi * shoulder * shoulder * body + frustum(shoulder, neck, half) +
                     frustum(neck, rim, half)) /
                    1000;
  out.litres = out.capacity_ml / 1000;
  out.sd_ml = out.sd_by_source.section_ml = kShortCutError * out.capacity_ml;
  out.low95_ml = out.capacity_ml - kNormalLimit * out.sd_ml;
  out.high95_ml = out.capacity_ml + kNormalLimit * out.sd_ml;
  out.height_mm = out.level_mm = m.height_mm - m.wall_mm;
  out.rim_diameter_mm = 2 * rim;
  out.slices = 3;
  return out;
}

}  // namespace sherd::vessel
