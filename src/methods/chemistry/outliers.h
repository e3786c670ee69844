#pragma once

#include "base/result.h"
#include "methods/chemistry/outliers_result.h"
#include "methods/chemistry/prepare.h"

namespace sherd::chemistry {

/// Looks for amounts and samples that the rest of their group does not expect: docs/methods/outliers.md. Without groups
/// all samples are one. Errors: `bad_level`, `groups_too_small` (no group of five).
Result<Outliers> outliers(const Prepared& samples, double level);

}  // namespace sherd::chemistry
