#pragma once

#include <string>

#include "figure/vessel_shape.h"

namespace sherd::figure {

/// What stands beneath a drawing: the number of the catalogue; diameter and sign of survival.
double words_width_mm(const VesselShape& shape);
double words_height_mm(const VesselShape& shape);
/// Where the middle of the words stands, outwards on the side of the exterior from the centre line.
double words_middle(const VesselShape& shape);
/// `middle`: of the words; `top`: the lower end of the drawing.
void draw_words(Svg& svg, const VesselShape& shape, Point middle_top);

/// "D. 180 mm", "D. c. 180 mm"; "" where there is no rim.
std::string diameter_words(const VesselShape& shape);
/// A circle whose filled part is the share of the rim that survives, from the top clockwise.
void draw_survival(Svg& svg, Point centre, double radius_mm, double percent);

}  // namespace sherd::figure
