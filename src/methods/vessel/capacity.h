#pragma once

#include <optional>
#include <span>
#include <vector>

#include "base/result.h"
#include "methods/vessel/result.h"
#include "model/section.h"

/// What a vessel holds, by frusta of its inside: docs/methods/capacity.md.
namespace sherd::vessel {

struct CapacitySettings {
  std::optional<double> fill_mm;  ///< above the lowest point of the inside; the rim where not given
  double section_error_mm = 0.5;  ///< standard deviation of a point of the section
  double diameter_error_mm = 0;   ///< of the diameter at which the section was set up
  double stance_error_deg = 0;    ///< of the angle at which it was set up
};

/// Volume of the solid of revolution below `level` (z), in mm^3: for each stretch of the outline
/// pi (z2 - z1) (r1^2 + r1 r2 + r2^2) / 3, cut at the level; stretches that lead downwards count less than nothing, so
/// that overhangs and a floor that rises in the middle come out right.
double volume_below(std::span<const OutlinePoint> inner, double level);

/// The inner sides of one vessel, each from its floor up to the rim; several are sections of it in several directions,
/// and their volumes are averaged, which averages r^2. Errors: `too_few_points`, `not_a_number`, `beyond_axis`,
/// `side_crosses_itself`, `no_height`, `fill_too_high`, `fill_too_low`, `bad_setting`, `no_inner_side`.
Result<Capacity> capacity_of(const std::vector<Section>& sections, const CapacitySettings& settings);

}  // namespace sherd::vessel
