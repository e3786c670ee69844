#pragma once

#include <cstdint>

#include "base/progress.h"
#include "base/result.h"
#include "methods/compare/similarity_result.h"
#include "methods/compare/table.h"

namespace sherd::compare {

struct SimilaritySettings {
  std::int64_t draws = 1000;  ///< for p; 0: none
  bool counts = true;         ///< the amounts are numbers of things, which can be drawn anew
  std::uint64_t seed = 1;
};

/// 200 less the sum of differences in percent (G. W. Brainerd 1951; W. S. Robinson 1951, American Antiquity 16:
/// 293-301, 301-313). p of a pair: both are drawn in their own numbers from what they hold together, and p is the share
/// of (draws + 1) with a coefficient as low or lower, the table's own among them (after the idea of W. R. DeBoer,
/// K. Kintigh & A. G. Rostoker 1996, Latin American Antiquity 7: 263-278; not read). Amounts with decimals have no p.
/// Errors: those of `check_table` (two rows, one column), `too_many_resamples`, `stopped`.
Result<Similarity> similarity(const CountTable& table, const SimilaritySettings& settings, Progress& progress);

/// Of rows that add up to 1.
statistics::Matrix robinson_matrix(const statistics::Matrix& profiles);

}  // namespace sherd::compare
