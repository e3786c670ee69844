#pragma once

#include <span>

#include "base/result.h"
#include "methods/chemistry/prepare.h"
#include "methods/chemistry/variation_result.h"

namespace sherd::chemistry {

/// tau_ij = var(ln x_i / x_j), divisor n - 1, of those rows (all where empty); parts above 0, two rows at least.
statistics::Matrix variation_matrix(const statistics::Matrix& parts, std::span<const std::size_t> which = {});

/// Aitchison's variation matrix with its total (J. Buxeda i Garrigos 1999, Journal of Archaeological Science 26:
/// 295-313), of all samples and of each group: docs/methods/variation.md. Takes `parts`, whatever the transform.
/// Errors: `too_few_parts`, `zero_part`.
Result<Variation> variation(const Prepared& samples);

}  // namespace sherd::chemistry
