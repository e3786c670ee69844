#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace sherd::compare {

/// A group as far as it recommends itself. Each score 0..1; one that is not known is null and counts as 0.
struct KeyGroup {
  std::string label;
  std::int64_t rank = 0;  ///< from 1; groups of one score share the better rank
  double score = 0;       ///< mean of the scores by their weights
  std::int64_t sherds = 0;
  std::optional<double> vessels, mean_weight_g, abraded_share, completeness, residual_share, years;
  std::optional<double> size_score, freshness_score, completeness_score, residual_score, dating_score;
  std::vector<std::string> missing;  ///< what is not known of it

  template <class V>
  static void fields(V& v) {
    v.field("label", &KeyGroup::label);
    v.field("rank", &KeyGroup::rank);
    v.field("score", &KeyGroup::score);
    v.field("sherds", &KeyGroup::sherds);
    v.field("vessels", &KeyGroup::vessels);
    v.field("mean_weight_g", &KeyGroup::mean_weight_g);
    v.field("abraded_share", &KeyGroup::abraded_share);
    v.field("completeness", &KeyGroup::completeness);
    v.field("residual_share", &KeyGroup::residual_share);
    v.field("years", &KeyGroup::years);
    v.field("size_score", &KeyGroup::size_score);
    v.field("freshness_score", &KeyGroup::freshness_score);
    v.field("completeness_score", &KeyGroup::completeness_score);
    v.field("residual_score", &KeyGroup::residual_score);
    v.field("dating_score", &KeyGroup::dating_score);
    v.field("missing", &KeyGroup::missing);
  }
};

struct KeyGroups {
  std::vector<KeyGroup> ranked;  ///< the best first
  std::map<std::string, std::string> weights;
  double site_mean_weight_g = 0;

  template <class V>
  static void fields(V& v) {
    v.field("ranked", &KeyGroups::ranked);
    v.field("weights", &KeyGroups::weights);
    v.field("site_mean_weight_g", &KeyGroups::site_mean_weight_g);
  }
};

}  // namespace sherd::compare
