#pragma once

#include <vector>

#include "desk/assemblage/compare_input.h"
#include "methods/compare/ordination.h"

namespace sherd::desk {

/// Merges types, takes out the rows that only stand beside, and what is empty, and says so. Fills `about`.
/// Errors: `no_column`, `column_twice`, `no_row`.
Result<void> prepare(const CompareRequest& request, CompareInput& input, std::vector<compare::Profile>& beside);

}  // namespace sherd::desk
