#include "methods/compare/clusters.h"

#include <gtest/gtest.h>

#include <cmath>

#include "methods/compare/testing.h"

namespace sherd::compare {
namespace {

Clusters of(const CountTable& table, const ClusterSettings& settings = {}) {
  NoProgress progress;
  auto out = clusters(table, settings, progress);
  EXPECT_TRUE(out) << (out ? "" : out.error().message);
  return *out;
}

std::string error_of(const CountTable& table, const ClusterSettings& settings) {
  NoProgress progress;
  const auto out = clusters(table, settings, progress);
  return out ? "" : out.error().code;
}

std::vector<std::int64_t> numbers(const Clusters& out) {
  std::vector<std::int64_t> cut;
  for (const Member& member : out.cut) cut.push_back(member.cluster);
  return cut;
}

/// Two kinds of pit, in disorder.
CountTable pits() {
  return table_of({"p1", "p2", "p3", "p4", "p5"}, {"grey", "buff", "red"},
                  {80, 10, 10, 5, 90, 5, 78, 14, 8, 10, 85, 5, 84, 8, 8});
}

TEST(Clusters, part_two_kinds_of_pit_by_every_linkage) {
  for (const Grouping grouping :
       {Grouping::single, Grouping::complete, Grouping::average, Grouping::ward, Grouping::k_means}) {
    const Clusters out = of(pits(), {.grouping = grouping});
    EXPECT_EQ(numbers(out), (std::vector<std::int64_t>{1, 2, 1, 2, 1})) << out.linkage;
    EXPECT_GT(*out.silhouette, 0.8);
    EXPECT_EQ(out.merges.size(), grouping == Grouping::k_means ? 0U : 4U);
  }
}

TEST(Clusters, of_similarity_are_joined_at_200_less_the_coefficient) {
  // Compiegne: the most alike are periods 2 and 1, coefficient 162.68 (calculated with R from the published counts).
  const Clusters out = of(compiegne(), {.grouping = Grouping::single, .between = Between::similarity});
  EXPECT_NEAR(out.merges[0].height, 200 - 162.68, 0.005);
  EXPECT_EQ(out.merges[0].a, 3);
  EXPECT_EQ(out.merges[0].b, 4);
  EXPECT_NEAR(out.merges[1].height, 200 - 152.45, 0.005);
  EXPECT_EQ(out.merges[3].size, 5);
  EXPECT_EQ(out.distance, "similarity");
}

TEST(Clusters, of_chi_square_distance_have_that_of_correspondence_analysis) {
  // By hand: profiles (.8, .2) and (.2, .8), columns 10 and 10 of 20: d^2 = 2 x .36 / .5.
  const Clusters out = of(table_of({"a", "b"}, {"x", "y"}, {8, 2, 2, 8}), {.between = Between::chi_square});
  EXPECT_NEAR(out.merges[0].height, std::sqrt(2 * 0.36 / 0.5), 1e-12);
  EXPECT_FALSE(out.silhouette);
}

TEST(Clusters, agree_with_phases_as_far_as_the_adjusted_index_says) {
  ClusterSettings settings{.groups = {"late", "early", "late", "early", "late"}};
  EXPECT_NEAR(*of(pits(), settings).adjusted_rand, 1, 1e-12);
  settings.groups = {"late", "late", "early", "early", "late"};
  EXPECT_LT(*of(pits(), settings).adjusted_rand, 0.5);
}

TEST(Clusters, of_k_means_are_the_same_from_the_same_seed) {
  const ClusterSettings settings{.grouping = Grouping::k_means, .cut = 3, .seed = 5};
  EXPECT_EQ(numbers(of(pits(), settings)), numbers(of(pits(), settings)));
  EXPECT_LT(*of(pits(), settings).within, *of(pits(), settings).total);
}

TEST(Clusters, refuse_what_cannot_be_cut_or_measured) {
  EXPECT_EQ(error_of(pits(), {.cut = 6}), "bad_cut");
  EXPECT_EQ(error_of(pits(), {.cut = 0}), "bad_cut");
  EXPECT_EQ(error_of(pits(), {.grouping = Grouping::ward, .between = Between::similarity}), "bad_distance");
  EXPECT_EQ(error_of(pits(), {.grouping = Grouping::k_means, .starts = 0}), "bad_starts");
  EXPECT_EQ(error_of(table_of({"a"}, {"x"}, {1}), {}), "too_few_rows");
}

}  // namespace
}  // namespace sherd::compare
