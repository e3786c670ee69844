#pragma once

#include <cstdint>
#include <vector>

namespace sherd::stratigraphy {

/// Where the truth lies in what was said of it, over sites that are drawn from the model itself, pottery and all.
struct Calibrated {
  std::vector<double> completed, began, start, finish;  ///< share of the draws before the truth, one a date
  double in_range = 0, dates = 0;                       ///< completions within their 95 % ranges, of so many
};

/// Simulation-based calibration (S. Talts, M. Betancourt, D. Simpson, A. Vehtari & A. Gelman 2018, "Validating Bayesian
/// inference algorithms with simulation-based calibration"): limits, dates, durations and relations from their prior,
/// then date-groups from the model of a context's pottery. Groups are given as such, their vessels independent (alike
/// 0) and the published ranges exact, since a rule for grouping has no simulation.
Calibrated calibrate(std::uint64_t sites);

}  // namespace sherd::stratigraphy
