#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "base/random.h"
#include "methods/stratigraphy/problem.h"

namespace sherd::stratigraphy {

/// One chain of draws of all dates together. It depends on the problem, the seed and its number alone. The problem must
/// outlive it and may be shared by several.
///
/// A sweep draws each boundary of the stretches twice, within a window of random width about where it stands: with all
/// units next to it left open, and with whole chains of units that hang on it left open; it tries to move a stretch
/// with everything in it; then it draws the units chain by chain: the order is covered anew by random chains of
/// directly related units, and the dates of a whole chain are drawn at once from their joint distribution given
/// everything else (filtered forward along the chain, drawn backward).
class Sampler {
 public:
  /// Even numbers start with everything as early as it can be, odd ones as late.
  Sampler(const Problem& problem, const Boundaries& boundaries, const Schedule& earliest, const Schedule& latest,
          std::uint64_t seed, std::uint64_t number);
  ~Sampler();
  Sampler(Sampler&&) noexcept;

  /// `power` of the weight that stretches have by their length; 1 but in the warm-up.
  void sweep(double power = 1);

  /// Ends the warm-up: from now on each sweep dwells on the units that lay near a boundary in its sweeps of power 1.
  void settle();

  /// Years of each unit and boundary, as they stand.
  const std::vector<std::int32_t>& completed() const;
  const std::vector<std::int32_t>& began() const;
  const std::vector<std::int32_t>& boundary() const;

 private:
  class State;
  std::unique_ptr<State> state_;
};

}  // namespace sherd::stratigraphy
