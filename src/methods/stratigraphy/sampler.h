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
/// A sweep draws each boundary of the stretches within a window of random width about where it stands, with all units
/// next to it left open, or with whole trees of units that hang on it left open; it tries to move a stretch with
/// everything in it, slides years with all that lies in them by one, and turns dates over within what their neighbours
/// leave them; then it draws the units forest by forest: units are opened in random order as long as the relations
/// between open ones close no ring, and the dates of a whole forest are drawn at once from their joint distribution
/// given everything else (summed up from the leaves, drawn from the roots); so on until each unit was drawn. What moves
/// slowly is drawn several times a sweep.
class Sampler {
 public:
  /// Even numbers start from where the units' own tables put them, on the early side, as far as the order allows, odd
  /// ones from the late side; where that is not possible from everything as early or as late as it can be.
  Sampler(const Problem& problem, const Boundaries& boundaries, const Schedule& earliest, const Schedule& latest,
          std::uint64_t seed, std::uint64_t number);
  ~Sampler();
  Sampler(Sampler&&) noexcept;

  /// `power` of the weight that stretches have by their length; 1 but in the warm-up.
  void sweep(double power = 1);

  /// Ends the warm-up: from now on each sweep dwells on the units that lay near a boundary in its sweeps of power 1.
  void settle();

  /// From now on each sweep draws each unit, and each boundary with the units near it, so many times more.
  void attend(const std::vector<std::uint32_t>& units, const std::vector<std::uint32_t>& boundaries);

  /// Years of each unit and boundary, as they stand.
  const std::vector<std::int32_t>& completed() const;
  const std::vector<std::int32_t>& began() const;
  const std::vector<std::int32_t>& boundary() const;

 private:
  class State;
  std::unique_ptr<State> state_;
};

}  // namespace sherd::stratigraphy
