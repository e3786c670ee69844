#pragma once

#include <cstdint>
#include <vector>

#include "desk/chemistry/chemistry.h"

namespace sherd::desk {

/// The line of each analyte ("calibration-Fe") and the chart of its check standard ("chart-Fe"), as far as the answer
/// has them; the analyte that moves the most surely along the run stands first. `width_mm` 0: 174.
std::vector<DrawnPicture> instrument_pictures(const ChemistryResponse& response, std::int64_t width_mm);

}  // namespace sherd::desk
