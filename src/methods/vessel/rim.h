#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "methods/vessel/arc.h"

/// Diameter and EVE of a rim from what is left of it: docs/methods/rim-diameter.md.
namespace sherd::vessel {

struct RimSettings {
  /// Standard deviation of one reading: of a point across the rim, of a sagitta. Where not given: of points what their
  /// own scatter tells (from 8 on; 0.2 mm with fewer), of a sagitta 0.1 mm.
  std::optional<double> reading_error_mm;
  double chord_error_mm = 0.5;  ///< standard deviation of a chord
  double class_width_mm = 20;   ///< of the class given below `least_percent`
  double least_percent = 5;     ///< below this share of the circle a class is given, not a value
};

/// The points of one sherd's rim edge, in mm, in any order. Errors: those of check_points, `bad_setting`.
Result<RimMeasure> rim_from_points(const std::vector<Place>& points, const RimSettings& settings);

struct SherdArc {
  std::string sherd;
  std::vector<Place> points;  ///< in axes of this sherd's own
};
/// Sherds of one rim, each read by itself. Errors: those of rim_from_points, the sherd in where.id; `too_few_sherds`.
Result<RimMeasure> rim_from_sherds(const std::vector<SherdArc>& sherds, const RimSettings& settings);

/// r = s/2 + c^2/(8 s). A sagitta above half the chord is of more than half the circle. Errors: `not_a_number`,
/// `no_chord`, `no_sagitta`, `straight_line` (the sagitta is not above its reading error), `bad_setting`.
Result<RimMeasure> rim_from_chord(double chord_mm, double sagitta_mm, const RimSettings& settings);

}  // namespace sherd::vessel
