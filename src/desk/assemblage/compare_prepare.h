#pragma once

#include <vector>

#include "desk/assemblage/compare_input.h"
#include "methods/compare/ordination.h"

namespace sherd::desk {

/// Rows and columns that are placed on the axes without making them.
struct Beside {
  std::vector<compare::Profile> rows, columns;
};

/// Merges types, takes out the rows and columns that only stand beside, and what is empty, and says so. Fills `about`.
/// Errors: `no_column`, `column_twice`, `no_row`.
Result<void> prepare(const CompareRequest& request, CompareInput& input, Beside& beside);

}  // namespace sherd::desk
