#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <utility>
#include <vector>

#include "base/random.h"

namespace sherd::statistics {

/// Successes in `n` >= 0 trials of probability `p` (clamped to 0..1). By inversion where fewer than 10 are expected on
/// the rarer side, else by rejection (W. Hoermann 1993, "The generation of binomial random variates", Journal of
/// Statistical Computation and Simulation 46: 101-110, algorithm BTRS).
std::int64_t draw_binomial(std::int64_t n, double p, Random& random);

/// `n` items over kinds in proportion to `weights` >= 0, at least one above 0; `drawn` gets the length of `weights`.
void draw_multinomial(std::int64_t n, std::span<const double> weights, Random& random, std::vector<double>& drawn);

/// In random order, each order as likely as any other (Fisher and Yates).
template <class T>
void shuffle(std::vector<T>& items, Random& random) {
  for (std::size_t i = items.size(); i > 1; --i) {
    std::swap(items[i - 1], items[random.below(static_cast<std::uint32_t>(i))]);
  }
}

}  // namespace sherd::statistics
