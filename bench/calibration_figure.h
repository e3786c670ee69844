#pragma once

#include <string>
#include <vector>

namespace sherd::stratigraphy {

/// Ranks of the truth, each 0..1, of one kind of date.
struct RankRow {
  std::string name;
  std::vector<double> ranks;
};

/// SVG: of each kind of date how many of the truths lie in each tenth of the draws, beside the number expected and the
/// limits within which 99 of 100 tenths stay where they are calibrated.
std::string calibration_figure(const std::vector<RankRow>& rows);

}  // namespace sherd::stratigraphy
