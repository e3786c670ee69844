#include "base/random.h"

#include <cmath>
#include <numbers>

namespace sherd {

std::array<std::uint32_t, 4> philox(std::array<std::uint32_t, 4> counter, std::array<std::uint32_t, 2> key) {
  constexpr std::uint64_t kM0 = 0xD2511F53;
  constexpr std::uint64_t kM1 = 0xCD9E8D57;
  constexpr std::uint32_t kW0 = 0x9E3779B9;
  constexpr std::uint32_t kW1 = 0xBB67AE85;
  for (int round = 0; round < 10; ++round) {
    const std::uint64_t p0 = kM0 * counter[0];
    const std::uint64_t p1 = kM1 * counter[2];
    counter = {static_cast<std::uint32_t>(p1 >> 32U) ^ counter[1] ^ key[0], static_cast<std::uint32_t>(p1),
               static_cast<std::uint32_t>(p0 >> 32U) ^ counter[3] ^ key[1], static_cast<std::uint32_t>(p0)};
    key[0] += kW0;
    key[1] += kW1;
  }
  return counter;
}

std::uint32_t Random::bits() {
  if (used_ == 4) {
    buffer_ = philox({static_cast<std::uint32_t>(block_), static_cast<std::uint32_t>(block_ >> 32U),
                      static_cast<std::uint32_t>(stream_), static_cast<std::uint32_t>(stream_ >> 32U)},
                     {static_cast<std::uint32_t>(seed_), static_cast<std::uint32_t>(seed_ >> 32U)});
    ++block_;
    used_ = 0;
  }
  return buffer_[used_++];
}

double Random::uniform() {
  const std::uint64_t high = bits();
  const std::uint64_t low = bits();
  return static_cast<double>(((high << 32U) | low) >> 11U) * 0x1.0p-53;
}

std::uint32_t Random::below(std::uint32_t n) {
  // Lemire 2019, "Fast random integer generation in an interval".
  std::uint64_t product = std::uint64_t{bits()} * n;
  auto low = static_cast<std::uint32_t>(product);
  if (low < n) {
    const std::uint32_t threshold = (0U - n) % n;
    while (low < threshold) {
      product = std::uint64_t{bits()} * n;
      low = static_cast<std::uint32_t>(product);
    }
  }
  return static_cast<std::uint32_t>(product >> 32U);
}

double Random::normal() {
  const double radius = std::sqrt(-2.0 * std::log(1.0 - uniform()));
  return radius * std::cos(2.0 * std::numbers::pi * uniform());
}

std::int64_t Random::geometric(double mean) {
  if (mean <= 0) return 0;
  const double q = mean / (1.0 + mean);
  return static_cast<std::int64_t>(std::floor(std::log(1.0 - uniform()) / std::log(q)));
}

std::int64_t Random::poisson(double mean) {
  double left = uniform();
  double probability = std::exp(-mean);
  std::int64_t n = 0;
  while (left > probability && n < 10000) {
    left -= probability;
    ++n;
    probability *= mean / static_cast<double>(n);
  }
  return n;
}

}  // namespace sherd
