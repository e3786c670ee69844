#pragma once

#include <string>

#include "base/result.h"

namespace sherd::figure {

/// A sheet to lay rims on. Lengths as printed, in mm.
struct RimChartSettings {
  double width_mm = 297, height_mm = 210;  ///< of the paper, across first
  double from_mm = 40, to_mm = 360;        ///< diameters
  double step_mm = 10;                     ///< between arcs, of diameter
};

/// SVG of the chart at true scale: half circles about one centre, a ray each 5 percent of the circle, a line of 100 mm
/// to check the print by. Arcs that the sheet cannot hold whole are drawn as far as it reaches. Errors: `bad_request`
/// where the diameters run backwards or the sheet cannot hold them.
Result<std::string> rim_chart(const RimChartSettings& settings);

/// Where the centre of the arcs lies on the sheet, from its left upper corner.
struct ChartCentre {
  double x = 0, y = 0;
};
ChartCentre rim_chart_centre(const RimChartSettings& settings);

}  // namespace sherd::figure
