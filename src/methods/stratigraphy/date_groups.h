#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "methods/stratigraphy/settings.h"
#include "methods/stratigraphy/vessel_kind.h"

namespace sherd::stratigraphy {

/// Vessels of one context that could have broken about the same time.
struct DateGroup {
  std::vector<std::size_t> kinds;  ///< in DateGroups::kinds, ascending
  std::int64_t vessels = 0;
  double weight = 1;         ///< exponent of each vessel: 1 / (1 + (vessels - 1) alike)
  double residual_odds = 1;  ///< what the look of its vessels does to the odds of being residual
  std::optional<Judgement> judged;
};

struct DateGroups {
  std::vector<VesselKind> kinds;  ///< pooled
  std::vector<DateGroup> groups;  ///< by their first kind
  /// Where the last merge or the first refused one was a close call: the other grouping.
  std::vector<DateGroup> otherwise;
};

/// Pools the kinds of a context and merges groups of them as long as it gains. The result depends on the kinds alone,
/// not on names, order or window. Formula: docs/methods/dates-in-sequence.md.
DateGroups date_groups(const std::vector<VesselKind>& kinds, const SequenceSettings& settings);

}  // namespace sherd::stratigraphy
