#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace sherd::statistics {

/// How well several chains of draws of one quantity agree, and how many independent draws they are worth.
struct ChainDiagnostics {
  double rhat = 1;
  double bulk = 0;  ///< effective draws for the middle of the distribution
  double tail = 0;  ///< for its 5 % and 95 % quantiles, the lesser
};

/// R-hat of halves of chains after ranking, the greater of that for location and that for spread, and effective draws:
/// A. Vehtari, A. Gelman, D. Simpson, B. Carpenter & P.-C. Buerkner 2021, "Rank-normalization, folding, and
/// localization: an improved R-hat for assessing convergence of MCMC", Bayesian Analysis 16: 667-718.
///
/// Chains of equal length, 4 draws or more; of an odd length the middle draw is left out. Draws of whole numbers: ties
/// get their mean rank. A quantity that never changes has R-hat 1 and as many effective draws as there are draws.
ChainDiagnostics chain_diagnostics(std::span<const std::vector<std::int32_t>> chains);

/// The plain R-hat of chains as they are given: sqrt(((n - 1) / n W + B / n) / W), W the mean variance within chains, B
/// n times the variance of their means. 1 where W is 0 and the means agree, infinity where they do not.
double plain_rhat(std::span<const std::vector<double>> chains);

/// Effective draws of chains as they are given: from autocorrelations over all chains, added up in pairs as long as
/// these are positive and made to fall (C. J. Geyer 1992, Statistical Science 7: 473-483); at most draws x log10 of
/// draws. Stops early where there are fewer than one in 50 draws.
double plain_effective(std::span<const std::vector<double>> chains);

/// The x with P(standard normal <= x) = p, 0 < p < 1.
double normal_quantile(double p);

}  // namespace sherd::statistics
