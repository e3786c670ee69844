#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "model/section.h"

namespace sherd::exchange {

/// One specimen of a landmark file.
struct LandmarkSet {
  std::string id;
  std::vector<OutlinePoint> points;  ///< x and y as given, times SCALE where there is one
  bool scaled = false;
};

/// A text file of landmarks as students of shape exchange them: `LM=8`, eight lines of x and y, `ID=`, `SCALE=`; points
/// of `CURVES=` follow the landmarks. Other keys are passed by. Errors: `bad_tps` with the line, `no_lines`.
Result<std::vector<LandmarkSet>> read_tps(std::string_view text);

}  // namespace sherd::exchange
