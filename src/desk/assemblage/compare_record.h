#pragma once

#include "desk/assemblage/compare_input.h"

namespace sherd::desk {

/// The ways that rest on a record and not on a table of amounts. Each fills its part of the answer and what `input`
/// says of itself; errors are those of the method and of the store.
Result<void> compare_breakage(const CompareRequest& request, Environment& environment, Progress& progress,
                              CompareInput& input, CompareResponse& response);
Result<void> compare_residuality(const CompareRequest& request, Environment& environment, Progress& progress,
                                 CompareInput& input, CompareResponse& response);
Result<void> compare_joins(const CompareRequest& request, Environment& environment, Progress& progress,
                           CompareInput& input, CompareResponse& response);
Result<void> compare_key_groups(const CompareRequest& request, Environment& environment, Progress& progress,
                                CompareInput& input, CompareResponse& response);
/// Published assemblages as further rows of a store's table. Errors: `no_row`, `unlike_measure`, `unlike_types`,
/// `not_for_this`, `damaged_store`.
Result<void> add_published_rows(const CompareRequest& request, Environment& environment, CompareInput& input);
/// Years of the rows of a store, each the middle of its range, for `dates_on_axes`.
Result<void> add_years(const CompareRequest& request, Environment& environment, Progress& progress,
                       CompareInput& input);
/// Of a store or of a table.
Result<void> compare_sample_size(const CompareRequest& request, bool store, Environment& environment,
                                 CompareInput& input, CompareResponse& response);

}  // namespace sherd::desk
