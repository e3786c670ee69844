#pragma once

#include <string>
#include <vector>

#include "desk/assemblage/compare_answer.h"

namespace sherd::desk {

/// A table of an answer, its heading first. The title is that of a sheet: 31 characters at most.
struct AnswerTable {
  std::string title;
  std::vector<std::vector<std::string>> rows;
};
/// What a comparison found, the table that CSV has first.
std::vector<AnswerTable> tables_of(const ComparisonResult& result);

}  // namespace sherd::desk
