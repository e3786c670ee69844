#include "methods/compare/diversity.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/random.h"
#include "methods/compare/testing.h"
#include "methods/statistics/draws.h"

namespace sherd::compare {
namespace {

Diversity of(const CountTable& table, const DiversitySettings& settings = {}) {
  NoProgress progress;
  auto out = diversity(table, settings, progress);
  EXPECT_TRUE(out) << (out ? "" : out.error().message);
  return *out;
}

double at(const DiversityRow& row, std::int64_t n) {
  for (const Expected& one : row.expected_richness) {
    if (one.n == n) return one.value;
  }
  return -1;
}

TEST(Diversity, of_fifteen_plants_is_the_published_one) {
  // geographyfieldwork.com, Simpson's index: 2 8 1 1 3, sum of n(n-1) 64 of 210, D = 0.3 (published); the others
  // calculated with R from the same numbers.
  const DiversityRow row = of(table_of({"a"}, letters(5), {2, 8, 1, 1, 3}), {.sizes = {8}}).rows[0];
  EXPECT_EQ(row.n, 15);
  EXPECT_EQ(row.richness, 5);
  EXPECT_NEAR(*row.simpson_unbiased, 64.0 / 210.0, 1e-12);
  EXPECT_NEAR(row.simpson, 0.3511111, 1e-7);
  EXPECT_NEAR(row.shannon, 1.28687263, 1e-8);
  EXPECT_NEAR(*row.evenness, 0.7995789, 1e-7);
  EXPECT_NEAR(row.types_of_shannon, 3.6214432, 1e-7);
  EXPECT_NEAR(row.types_of_simpson, 2.848101, 1e-6);
  EXPECT_NEAR(*row.chao1, 7, 1e-12);
  EXPECT_NEAR(*row.chao1_corrected, 5.5, 1e-12);
  EXPECT_NEAR(at(row, 2), 1.695238, 1e-6);
  EXPECT_NEAR(at(row, 5), 2.967366, 1e-6);
  EXPECT_NEAR(at(row, 8), 3.789744, 1e-6);
  EXPECT_NEAR(at(row, 10), 4.216117, 1e-6);
  EXPECT_NEAR(at(row, 15), 5, 1e-10);
}

TEST(ExpectedRichness, of_one_piece_is_one_type_and_of_two_follows_from_simpson) {
  const std::vector<double> counts{2, 8, 1, 1, 3};
  EXPECT_NEAR(expected_richness(counts, 1).value, 1, 1e-12);
  EXPECT_NEAR(expected_richness(counts, 2).value, 2 - 64.0 / 210.0, 1e-12);
  EXPECT_NEAR(expected_richness(std::vector<double>{4, 6}, 8).value, 2, 1e-12);  // more than the greater holds
  EXPECT_NEAR(expected_richness(counts, 15).high95, 5, 1e-9);                    // nothing is left to chance
}

TEST(ExpectedRichness, has_the_mean_and_the_spread_of_drawing_without_putting_back) {
  const std::vector<double> counts{2, 8, 1, 1, 3};
  std::vector<int> pieces;
  for (int j = 0; j < 5; ++j)
    pieces.insert(pieces.end(), static_cast<std::size_t>(counts[static_cast<std::size_t>(j)]), j);
  Random random(5);
  double sum = 0;
  double squares = 0;
  constexpr int kRuns = 20000;
  for (int run = 0; run < kRuns; ++run) {
    statistics::shuffle(pieces, random);
    std::vector<bool> seen(5, false);
    for (std::size_t k = 0; k < 6; ++k) seen[static_cast<std::size_t>(pieces[k])] = true;
    const auto types = static_cast<double>(std::count(seen.begin(), seen.end(), true));
    sum += types;
    squares += types * types;
  }
  const double mean = sum / kRuns;
  const double sd = std::sqrt(squares / kRuns - mean * mean);
  const Expected expected = expected_richness(counts, 6);
  EXPECT_NEAR(expected.value, mean, 5 * sd / std::sqrt(kRuns));
  EXPECT_NEAR((expected.high95 - expected.value) / 1.96, sd, 0.03);
}

TEST(Diversity, of_one_type_has_no_evenness_and_of_one_piece_no_unbiased_simpson) {
  const Diversity out = of(table_of({"one type", "one piece"}, {"x", "y"}, {7, 0, 0, 1}));
  EXPECT_FALSE(out.rows[0].evenness);
  EXPECT_EQ(out.rows[0].shannon, 0);
  EXPECT_EQ(out.rows[0].simpson, 1);
  EXPECT_FALSE(out.rows[1].simpson_unbiased);
  EXPECT_EQ(*out.common_n, 1);
}

TEST(Diversity, of_weights_gives_nothing_that_rests_on_numbers) {
  const Diversity out = of(table_of({"a", "b"}, {"x", "y"}, {1.5, 2, 3, 4}));
  EXPECT_FALSE(out.rows[0].chao1);
  EXPECT_TRUE(out.rows[0].expected_richness.empty());
  EXPECT_NE(out.note, "");
  EXPECT_FALSE(of(table_of({"a", "b"}, {"x", "y"}, {1, 2, 3, 4}), {.counts = false}).common_n);
}

TEST(Diversity, tells_a_poor_row_from_a_small_one) {
  // 200 pieces of one type among rows of twenty: fewer than its size explains; 10 pieces of six types: as expected.
  std::vector<double> values;
  for (int j = 0; j < 20; ++j) values.push_back(50);
  for (int j = 0; j < 20; ++j) values.push_back(j == 0 ? 200 : 0);
  for (int j = 0; j < 20; ++j) values.push_back(j < 8 ? 1 : 0);
  const Diversity out = of(table_of({"rich", "poor", "small"}, letters(20), values));
  EXPECT_EQ(out.rows[1].against_all, "fewer");
  EXPECT_EQ(out.rows[2].against_all, "as expected");
  EXPECT_NE(out.note.find("small"), std::string::npos);
  EXPECT_EQ(of(table_of({"rich", "poor", "small"}, letters(20), values)).rows[2].if_all_alike->value,
            out.rows[2].if_all_alike->value);
}

}  // namespace
}  // namespace sherd::compare
