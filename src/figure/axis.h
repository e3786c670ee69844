#pragma once

#include <string>
#include <vector>

#include "figure/scale.h"
#include "figure/svg.h"

namespace sherd::figure {

inline constexpr double kTickPoints = 7;
/// Height that the labels of an axis take.
inline constexpr double kAxisMm = 4.2;

struct AxisTick {
  double x = 0;        ///< mm
  std::string label;   ///< "" where there was no room
  double label_x = 0;  ///< its middle, moved so that it stays on the page
};

/// As many ticks as have room for their labels between `left` and `right`, the limits of the page in mm.
std::vector<AxisTick> value_axis(const LinearScale& scale, double left, double right);
std::vector<AxisTick> year_axis(const YearScale& scale, double left, double right);

/// Faint rules at the ticks from `top` to `bottom`.
void draw_rules(Svg& svg, const std::vector<AxisTick>& axis, double top, double bottom);
/// Labels beneath `y` with short ticks, or above it.
void draw_labels_below(Svg& svg, const std::vector<AxisTick>& axis, double y);
void draw_labels_above(Svg& svg, const std::vector<AxisTick>& axis, double y);

}  // namespace sherd::figure
