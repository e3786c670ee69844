#pragma once

#include <vector>

#include "desk/chemistry/chemistry.h"

namespace sherd::desk {

/// What was found as tables, the one that CSV has first.
std::vector<AnswerTable> tables_of(const ChemistryResponse& response);

}  // namespace sherd::desk
