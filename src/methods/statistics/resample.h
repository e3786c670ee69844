#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "base/random.h"

namespace sherd::statistics {

/// Draws sum(counts) items with replacement from a population in which kind i is present counts[i] times, and writes
/// how many of each kind were drawn into `drawn` (same length). Counts are >= 0 and add up to less than 2^32.
void resample_counts(std::span<const std::int64_t> counts, Random& random, std::vector<std::int64_t>& drawn);

}  // namespace sherd::statistics
