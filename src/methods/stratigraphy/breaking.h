#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "methods/stratigraphy/settings.h"
#include "methods/stratigraphy/vessel_kind.h"

namespace sherd::stratigraphy {

/// Years first..last, astronomical, both included.
struct Years {
  std::int64_t first = 0, last = 0;

  std::size_t size() const { return last < first ? 0 : static_cast<std::size_t>(last - first + 1); }
  friend bool operator==(const Years&, const Years&) = default;
};

/// The chance of each year in which a vessel may have been made: a trapezoid, or with its own slopes. Sums to 1.
struct Making {
  std::int64_t first = 0;
  std::vector<double> at;
};
Making making_of(const VesselKind& kind, const SequenceSettings& settings);

/// The chance that a vessel of a kind broke in each of some years, and how much of it is owed to long keeping. What was
/// made before the first year counts, too, so that the chances add up to 1 or less.
struct Breaking {
  std::vector<double> at;
  std::vector<double> kept;  ///< of `at`, the part of the long-kept pieces
};
Breaking breaking_of(const VesselKind& kind, Years years, const SequenceSettings& settings);

}  // namespace sherd::stratigraphy
