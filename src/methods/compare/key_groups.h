#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "methods/compare/key_groups_result.h"

namespace sherd::compare {

/// What is asked of a key group, in the order of `KeyGroupSettings::weights`.
inline constexpr std::array<std::string_view, 5> kKeyMerits{"size", "freshness", "completeness", "residual", "dating"};

struct KeyGroupSettings {
  std::array<double, 5> weights{1, 1, 1, 1, 1};  ///< 0 leaves one out
};

/// What is known of a group.
struct KeyGroupFacts {
  std::string label;
  std::int64_t sherds = 0;
  std::optional<double> vessels;         ///< as counted
  std::optional<double> mean_weight_g;   ///< of a sherd
  std::optional<double> abraded_share;   ///< of sherds whose condition is recorded, 0..1
  std::optional<double> completeness;    ///< EVE over vessels
  std::optional<double> residual_share;  ///< 0..1
  std::optional<double> years;           ///< length of its date range
};

/// Groups by how well they would serve as key groups: docs/methods/key-groups.md. The scores are our own scale.
/// Size: ln(1 + vessels), else sherds, over that of the largest. Freshness: w / (w + the site's own mean sherd weight),
/// together with what is not abraded where that is recorded. Completeness: over that of the most complete. Residual: 1
/// less the residual share. Dating: 50 / (50 + years). Errors: `bad_weight` (below 0, no number, or all 0),
/// `too_few_groups`.
Result<KeyGroups> key_groups(std::vector<KeyGroupFacts> groups, double site_mean_weight_g,
                             const KeyGroupSettings& settings);

}  // namespace sherd::compare
