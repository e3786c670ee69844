#pragma once

#include "desk/assemblage/compare_input.h"
#include "desk/assemblage/compare_prepare.h"

namespace sherd::desk {

/// Carries out one of the ways that rest on a table of amounts. Errors: `bad_choice`, `not_counts`, `no_method`
/// (internal) where it is none of them, those of the method.
Result<void> run_method(const CompareRequest& request, CompareInput& input, const Beside& beside,
                        CompareResponse& response, Progress& progress);

}  // namespace sherd::desk
