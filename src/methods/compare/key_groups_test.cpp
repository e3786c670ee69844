#include "methods/compare/key_groups.h"

#include <gmock/gmock.h>

#include <cmath>

namespace sherd::compare {
namespace {

using testing::ElementsAre;

KeyGroupFacts facts(const char* label, double vessels) {
  return {.label = label,
          .sherds = static_cast<std::int64_t>(vessels) * 5,
          .vessels = vessels,
          .mean_weight_g = 10,
          .abraded_share = 0.5,
          .completeness = 0.2,
          .residual_share = 0.1,
          .years = 50};
}
std::vector<std::string> order(const KeyGroups& groups) {
  std::vector<std::string> out;
  for (const KeyGroup& group : groups.ranked) out.push_back(group.label);
  return out;
}
KeyGroups found(std::vector<KeyGroupFacts> groups, const KeyGroupSettings& settings = {}) {
  auto out = key_groups(std::move(groups), 10, settings);
  EXPECT_TRUE(out);
  return out ? *out : KeyGroups{};
}

TEST(KeyGroups, scores_of_one_group_by_hand) {
  const KeyGroup group = found({facts("pit", 20)}).ranked.front();
  EXPECT_EQ(group.size_score, 1);
  EXPECT_NEAR(*group.freshness_score, (0.5 + 0.5) / 2, 1e-12) << "as heavy as the site's sherds, half of them abraded";
  EXPECT_EQ(group.completeness_score, 1);
  EXPECT_NEAR(*group.residual_score, 0.9, 1e-12);
  EXPECT_NEAR(*group.dating_score, 0.5, 1e-12);
  EXPECT_NEAR(group.score, (1 + 0.5 + 1 + 0.9 + 0.5) / 5, 1e-12);
}

TEST(KeyGroups, larger_fresher_purer_and_better_dated_ranks_before) {
  for (const int merit : {0, 1, 2, 3, 4}) {
    KeyGroupFacts better = facts("better", 20), other = facts("other", 20);
    if (merit == 0) other.vessels = 10;
    if (merit == 1) better.mean_weight_g = 30;
    if (merit == 2) better.completeness = 0.4;
    if (merit == 3) better.residual_share = 0;
    if (merit == 4) better.years = 10;
    EXPECT_THAT(order(found({other, better})), ElementsAre("better", "other"))
        << kKeyMerits[static_cast<std::size_t>(merit)];
  }
}

TEST(KeyGroups, a_weight_of_0_leaves_a_merit_out) {
  KeyGroupFacts large = facts("large", 100), dated = facts("dated", 5);
  dated.years = 5;
  large.years = 400;
  EXPECT_THAT(order(found({large, dated}, {{1, 0, 0, 0, 0}})), ElementsAre("large", "dated"));
  EXPECT_THAT(order(found({large, dated}, {{0, 0, 0, 0, 1}})), ElementsAre("dated", "large"));
}

TEST(KeyGroups, what_is_not_known_counts_for_nothing_and_is_named) {
  KeyGroupFacts bare{.label = "bare",
                     .sherds = 50,
                     .vessels = {},
                     .mean_weight_g = {},
                     .abraded_share = {},
                     .completeness = {},
                     .residual_share = {},
                     .years = {}};
  const KeyGroups out = found({bare, facts("known", 10)});
  EXPECT_EQ(out.ranked.front().label, "known");
  EXPECT_THAT(out.ranked.back().missing, ElementsAre("freshness", "completeness", "residual", "dating"));
  EXPECT_NEAR(out.ranked.back().score, 0.2, 1e-12)
      << "its size alone, by sherds, since vessels are not counted everywhere";
}

TEST(KeyGroups, equal_groups_share_a_rank_in_the_order_given) {
  const KeyGroups out = found({facts("a", 10), facts("b", 10), facts("c", 5)});
  EXPECT_THAT(order(out), ElementsAre("a", "b", "c"));
  EXPECT_EQ(out.ranked[1].rank, 1);
  EXPECT_EQ(out.ranked[2].rank, 3);
}

TEST(KeyGroups, impossible_weights_are_refused) {
  EXPECT_EQ(key_groups({facts("a", 1)}, 1, {{-1, 1, 1, 1, 1}}).error().code, "bad_weight");
  EXPECT_EQ(key_groups({facts("a", 1)}, 1, {{0, 0, 0, 0, 0}}).error().code, "bad_weight");
  EXPECT_EQ(key_groups({facts("a", 1)}, 1, {{std::nan(""), 1, 1, 1, 1}}).error().code, "bad_weight");
  EXPECT_EQ(key_groups({}, 1, {}).error().code, "too_few_groups");
}

}  // namespace
}  // namespace sherd::compare
