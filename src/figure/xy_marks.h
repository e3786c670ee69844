#pragma once

#include "figure/plane.h"
#include "figure/xy.h"

namespace sherd::figure {

/// The outline of an ellipse, in mm.
std::vector<Point> ring_on_page(const Ring& ring, const Plane& plane);

/// The marks of figures on two axes.
void draw_sample(Svg& svg, const Box& box, const XyGroup& group);
void draw_band(Svg& svg, const XyCurve& curve, const Plane& plane);
void draw_curve(Svg& svg, const XyCurve& curve, const Plane& plane);
void draw_point(Svg& svg, const XyPoint& point, const Plane& plane);

}  // namespace sherd::figure
