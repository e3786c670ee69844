#pragma once

#include "desk/assemblage/compare_input.h"
#include "desk/assemblage/compare_prepare.h"

namespace sherd::desk {

/// Carries out one of the ways that rest on a table of amounts: ordination, similarity, order, diversity, clusters or
/// difference. Errors: `bad_choice`, `not_counts`, those of the method.
Result<void> run_method(const CompareRequest& request, CompareInput& input, const Beside& beside,
                        CompareResponse& response, Progress& progress);

}  // namespace sherd::desk
