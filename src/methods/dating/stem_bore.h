#pragma once

#include <cstdint>
#include <span>

#include "base/result.h"
#include "methods/dating/result_stems.h"

namespace sherd::dating {

/// So many stems of clay pipes with a bore of that many 64ths of an inch.
struct BoreCount {
  std::int64_t bore = 0;
  std::int64_t stems = 0;
};

struct StemBoreSettings {
  std::int64_t resamples = 1000;  ///< for the 95 % limits; 0: none
  std::uint64_t seed = 0;
};

/// Below so many stems the answer carries a caution (common practice, no source: there is no agreed number).
constexpr std::int64_t kFewStems = 30;

/// Dates a sample of English clay-pipe stems by its mean bore (two formulas) and by a table of the percentages of each
/// bore by period. A formula refuses a year outside 1600-1800: its `year` is null and its caution says why. Limits: the
/// central 95 % of resamples of the stems. Formulas, table, how each is known: docs/methods/stem-bore.md.
/// Errors: `no_stems`, `negative_count`, `bore_unlikely` (not 1..16), `too_many_resamples`.
Result<StemBores> date_stem_bores(std::span<const BoreCount> counts, const StemBoreSettings& settings);

}  // namespace sherd::dating
