#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/compare/diversity_result.h"
#include "methods/compare/table.h"

namespace sherd::compare {

struct DiversitySettings {
  bool counts = true;               ///< numbers of things; else nothing that rests on numbers is given
  std::vector<std::int64_t> sizes;  ///< of samples to expect types in, beside those chosen
  std::int64_t draws = 1000;        ///< for what to expect if all rows were alike; 0: none
  std::uint64_t seed = 1;
};

/// Richness, Shannon's and Simpson's indices, Chao's estimate, rarefaction: docs/methods/diversity.md.
/// Errors: those of `check_table` (one row, one column), `too_many_resamples`, `stopped`.
Result<Diversity> diversity(const CountTable& table, const DiversitySettings& settings, Progress& progress);

/// Types to expect in n of the pieces drawn without putting back (S. H. Hurlbert 1971, Ecology 52: 577-586), and the
/// interval of 1.96 standard deviations (K. L. Heck, G. van Belle & D. Simberloff 1975, Ecology 56: 1459-1461).
/// Whole counts; 1 <= n <= their sum.
Expected expected_richness(std::span<const double> counts, std::int64_t n);

}  // namespace sherd::compare
