#pragma once

#include <span>

#include "base/result.h"
#include "methods/chemistry/dilution_result.h"
#include "methods/chemistry/prepare.h"

namespace sherd::chemistry {

/// The factor f with the least sum of ((f y - m) / s)^2: sum(y m / s^2) / sum(y^2 / s^2). s above 0, y not all 0.
double best_fit_factor(std::span<const double> sample, std::span<const double> mean, std::span<const double> sd);

/// Temper, carbonate or water that holds none of the elements lowers them all alike: each sample is brought to its
/// group by one factor, mean and spread those of the other members (docs/methods/dilution.md). Takes `parts`. Errors:
/// `no_groups`, `groups_too_small` (none of four), `too_few_parts`. A part that is the same in all others is not used.
Result<Dilution> dilution(const Prepared& samples);

}  // namespace sherd::chemistry
