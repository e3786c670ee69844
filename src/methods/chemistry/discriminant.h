#pragma once

#include "base/result.h"
#include "methods/chemistry/discriminant_result.h"
#include "methods/chemistry/prepare.h"

namespace sherd::chemistry {

/// Shares of the groups among the samples, or the same for all.
enum class Priors { shares, equal };

/// Linear discriminant functions of the groups (R. A. Fisher 1936, Annals of Eugenics 7: 179-188) with the table of
/// samples put back and that of samples left out, by the closed form: docs/methods/discriminant.md. Priors are not
/// changed by leaving a sample out. Errors: those of `split_by_groups`.
Result<Discriminant> discriminant(const Prepared& samples, Priors priors);

}  // namespace sherd::chemistry
