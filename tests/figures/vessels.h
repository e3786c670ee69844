#pragma once

#include <vector>

#include "figure/vessel_drawing.h"

namespace sherd::figure {

/// Invented vessels that show what a drawing can hold: a whole jug with handle and glaze, a jar partly conjectured, a
/// bowl of uncertain diameter, hand-made pots, a mortarium, a rim and a sherd without a diameter, a base.
std::vector<VesselDrawing> sample_vessels();

}  // namespace sherd::figure
