#pragma once

#include <string>
#include <vector>

#include "desk/assemblage/context_rows.h"
#include "methods/compare/breakage_result.h"
#include "methods/quantify/tally.h"

namespace sherd::desk {

/// The columns of lines that `breakage_rows` reads.
const std::vector<std::string>& breakage_columns();

/// How the pots of each row are broken. Errors: those of the tally and of the store.
Result<compare::Breakage> breakage_rows(const LineRows& rows, std::int64_t resamples, std::uint64_t seed,
                                        Progress& progress);

}  // namespace sherd::desk
