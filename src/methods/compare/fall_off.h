#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "methods/compare/fall_off_result.h"

namespace sherd::compare {

/// How much of a ware lies at a place, how far that is from where it was made, and how it came there.
struct Place {
  std::string label;
  double distance = 0, amount = 0;
  std::string group;  ///< mode of transport; "" not said
  std::optional<double> map_x = {}, map_y = {};
};

/// What becomes of places that have none, on curves of the logarithm.
enum class Zeros { leave_out, add_half };

/// Curves of amount on distance by least squares, for all places and for each group: docs/methods/fall-off.md.
/// Errors: `too_few_places` (3), `negative_count`, `negative_distance`, `not_a_number`.
Result<FallOff> fall_off(const std::vector<Place>& places, Zeros zeros);

}  // namespace sherd::compare
