#pragma once

#include <vector>

#include "desk/assemblage/tally_sherds.h"
#include "desk/frame/delivery.h"

namespace sherd::desk {

/// The figures of a tally. By two fields: the shares of the second in each of the first as stacked bars, and their
/// table; by one, or by more than two: bars of the measure, and the four measures side by side. `plain`: of a table, so
/// that no mark opens lines of a record.
std::vector<DrawnPicture> tally_pictures(const TallyResponse& response, const TallyRequest& request, bool plain);

/// The rows of a tally, and by two fields the measure of the request crossed.
std::vector<AnswerTable> tally_tables(const TallyResponse& response, const std::string& measure);

}  // namespace sherd::desk
