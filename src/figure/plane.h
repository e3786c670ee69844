#pragma once

#include <string>
#include <vector>

#include "figure/axis.h"
#include "figure/frame.h"
#include "figure/scale.h"

namespace sherd::figure {

/// What a figure on two axes of values asks for.
struct PlaneRequest {
  About about;
  Page page;
  std::string x_title, y_title;
  Domain x, y;                ///< what is drawn lies within
  bool same_scale = false;    ///< a unit is as long on both axes
  double height_share = 0.7;  ///< of the plot's width, where the scales differ
  bool with_ticks = true;
  bool x_log = false;  ///< values of x are logarithms to the base 10, labelled as what they are of
  std::vector<LegendItem> legend;
  std::vector<std::string> notes;  ///< before those on what was left out
};

/// Where everything of it lies, in mm.
struct Plane {
  double width = 0, height = 0;
  Box plot;
  LinearScale x{0, 1, 0, 1}, y{0, 1, 1, 0};
  std::vector<double> y_ticks;
  std::vector<AxisTick> x_axis;
  Legend legend;
  std::vector<std::string> notes;
};

Plane place_plane(const PlaneRequest& request);
/// Everything but the marks: rules, ticks, titles, legend, notes.
void draw_plane(Svg& svg, const PlaneRequest& request, const Plane& plane);

}  // namespace sherd::figure
