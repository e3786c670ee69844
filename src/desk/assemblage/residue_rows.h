#pragma once

#include <vector>

#include "desk/assemblage/context_rows.h"
#include "methods/compare/residuality.h"

namespace sherd::desk {

/// What of each context's chosen pottery is older than its terminus, in the rows of `contexts`.
std::vector<compare::ContextResidue> residues(const ContextRows& contexts);
/// Labels, with the titles of phases where rows are phases.
std::vector<compare::RowName> row_names(const ContextRows& contexts);

}  // namespace sherd::desk
