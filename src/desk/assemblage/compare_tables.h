#pragma once

#include <vector>

#include "desk/assemblage/compare_answer.h"
#include "desk/frame/delivery.h"

namespace sherd::desk {

/// What a comparison found, the table that CSV has first.
std::vector<AnswerTable> tables_of(const ComparisonResult& result);

}  // namespace sherd::desk
