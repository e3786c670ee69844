#pragma once

#include <array>
#include <cstdint>

namespace sherd {

/// Ten rounds of Philox 4x32 (Salmon, Moraes, Dror & Shaw 2011, "Parallel random numbers: as easy as 1, 2, 3"):
/// one block of 128 random bits from a counter and a key.
std::array<std::uint32_t, 4> philox(std::array<std::uint32_t, 4> counter, std::array<std::uint32_t, 2> key);

/// A stream of random numbers that depends on (seed, stream) alone: the same on every machine and in whatever
/// order streams are drawn from. Not for secrets.
class Random {
 public:
  explicit Random(std::uint64_t seed, std::uint64_t stream = 0) : seed_(seed), stream_(stream) {}

  std::uint32_t bits();
  /// Uniform on [0, 1), 53 bits.
  double uniform();
  /// Uniform on 0..n-1 without bias; n >= 1.
  std::uint32_t below(std::uint32_t n);
  /// Standard normal (Box and Muller, one value a call).
  double normal();
  /// Number of failures before the first success, mean `mean` >= 0.
  std::int64_t geometric(double mean);
  /// Poisson by inversion, mean 0..700.
  std::int64_t poisson(double mean);

 private:
  std::uint64_t seed_;
  std::uint64_t stream_;
  std::uint64_t block_ = 0;
  unsigned used_ = 4;
  std::array<std::uint32_t, 4> buffer_{};
};

}  // namespace sherd
