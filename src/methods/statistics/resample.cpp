#include "methods/statistics/resample.h"

#include <algorithm>
#include <cstddef>
#include <iterator>

namespace sherd::statistics {

void resample_counts(std::span<const std::int64_t> counts, Random& random, std::vector<std::int64_t>& drawn) {
  std::vector<std::int64_t> upto(counts.size());
  std::int64_t total = 0;
  for (std::size_t i = 0; i < counts.size(); ++i) upto[i] = total += counts[i];
  drawn.assign(counts.size(), 0);
  for (std::int64_t n = 0; n < total; ++n) {
    const std::int64_t item = random.below(static_cast<std::uint32_t>(total));
    const auto kind = std::distance(upto.begin(), std::upper_bound(upto.begin(), upto.end(), item));
    ++drawn[static_cast<std::size_t>(kind)];
  }
}

}  // namespace sherd::statistics
