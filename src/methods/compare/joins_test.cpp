#include "methods/compare/joins.h"

#include <gmock/gmock.h>

namespace sherd::compare {
namespace {

using testing::ElementsAre;

/// Each join between two lines of its own, so that every join is one vessel.
JoinInput of_matrix(const std::vector<std::vector<int>>& joins) {
  JoinInput input;
  for (std::size_t i = 0; i < joins.size(); ++i) {
    input.labels.push_back(std::to_string(i + 1));
    input.groups.emplace_back("A");
    input.sherds.push_back(100);
    for (std::size_t j = i; j < joins.size(); ++j) {
      for (int k = 0; k < joins[i][j]; ++k) {
        const std::size_t line = input.lines.size();
        input.lines.push_back({i, "r" + std::to_string(line)});
        input.lines.push_back({j, "r" + std::to_string(line + 1)});
        input.ties.push_back({line, line + 1});
      }
    }
  }
  return input;
}

TEST(Joins, cohesion_and_modularity_of_three_contexts) {
  // Calculated by hand: 13 joins within, 3 between; 26/32 less the squares of 14/32, 11/32 and 7/32.
  const JoinNetwork found = join_network(of_matrix({{6, 2, 0}, {2, 4, 1}, {0, 1, 3}}));
  EXPECT_EQ(found.within, 13);
  EXPECT_EQ(found.between, 3);
  EXPECT_NEAR(*found.cohesion, 0.8125, 1e-12);
  EXPECT_NEAR(*found.modularity, 0.455078125, 1e-12);
  EXPECT_EQ(found.components, 1);
  EXPECT_EQ(found.vessels_across, 3);
  ASSERT_EQ(found.links.size(), 2U);
  EXPECT_EQ(found.links[0].joins, 2);
  EXPECT_EQ(found.links[0].vessels, 2);
  EXPECT_NEAR(found.links[0].index, 0.02, 1e-12);
  EXPECT_EQ(found.nodes[1].across, 3);
}

TEST(Joins, a_vessel_in_three_contexts_is_one_vessel_in_each_pair) {
  JoinInput input{{"1", "2", "3"}, {"", "", ""}, {5, 5, 0}, {{0, "a"}, {1, "b"}, {2, "c"}}, {{0, 1}, {1, 2, false}}};
  const JoinNetwork found = join_network(input);
  EXPECT_EQ(found.joins, 1);
  EXPECT_EQ(found.vessels_across, 1);
  ASSERT_EQ(found.links.size(), 3U) << "the first and the third share the vessel without a join of their own";
  for (const JoinLink& link : found.links) EXPECT_EQ(link.vessels, 1);
  EXPECT_EQ(found.links[2].index, 0);
  EXPECT_THAT(found.links[0].records, ElementsAre("a", "b"));
}

TEST(Joins, apart_are_two_components_and_possible_ties_are_counted_by_themselves) {
  JoinInput input{{"1", "2", "3", "4"}, {"", "", "", ""}, {1, 1, 1, 1}, {{0, "a"}, {1, "b"}, {2, "c"}, {3, "d"}}, {}};
  input.ties = {{0, 1}, {2, 3}, {1, 2, true, true}};
  const JoinNetwork found = join_network(input);
  EXPECT_EQ(found.components, 2);
  EXPECT_EQ(found.possible, 1);
  EXPECT_EQ(found.joins, 2);
  EXPECT_EQ(found.cohesion, 0);
  EXPECT_EQ(found.note, "1 tie told as possible is not counted");
}

TEST(Joins, none_recorded_have_no_cohesion) {
  const JoinNetwork found = join_network({{"1"}, {""}, {4}, {{0, "a"}}, {}});
  EXPECT_FALSE(found.cohesion);
  EXPECT_TRUE(found.nodes.empty());
  EXPECT_EQ(found.note, "no joins are recorded");
}

}  // namespace
}  // namespace sherd::compare
