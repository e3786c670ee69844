#pragma once

#include <vector>

#include "figure/svg.h"
#include "figure/vessel_shape.h"

/// A handle where it meets the wall. Coordinates as of VesselShape.
namespace sherd::figure {

/// Outlines without where the handle grows out of them; each as it is where there is no handle.
std::vector<std::vector<Point>> clear_of_handle(const std::vector<Point>& outline, const std::vector<Point>& handle);
/// The handle's outline where it stands out from the wall.
std::vector<std::vector<Point>> handle_outside_wall(const VesselShape& shape);
/// Two marks where the handle was cut, beside it; none where it is not crossed there.
std::vector<Segment> handle_cut_marks(const VesselShape& shape);

}  // namespace sherd::figure
