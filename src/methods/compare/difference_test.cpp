#include "methods/compare/difference.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "base/random.h"
#include "methods/compare/testing.h"

namespace sherd::compare {
namespace {

using ::testing::ElementsAre;

Difference of(const CountTable& table, const DifferenceSettings& settings = {.shuffles = 0, .resamples = 0}) {
  NoProgress progress;
  auto out = difference(table, settings, progress);
  EXPECT_TRUE(out) << (out ? "" : out.error().message);
  return *out;
}

TEST(Difference, of_seacourt_has_the_published_counts_and_what_follows_from_them) {
  // Ashmolean Museum, PotWeb, Seacourt, table 1 (counts read): coarse 150 and fine 326 in area 11, 404 and 693 in area
  // 4; statistics calculated with R.
  const Difference out = of(table_of({"area 11", "area 4"}, {"coarse", "fine"}, {150, 326, 404, 693}));
  EXPECT_NEAR(out.expected[0][0], 167.644, 0.0005);
  EXPECT_NEAR(out.expected[1][1], 710.644, 0.0005);
  EXPECT_NEAR(out.chi_square, 4.11038367, 1e-8);
  EXPECT_NEAR(out.g_square, 4.15214648, 1e-8);
  EXPECT_NEAR(out.cramers_v, 0.05111835, 1e-8);
  EXPECT_NEAR(out.p, 0.04262069, 1e-8);
  EXPECT_NEAR(*out.chi_square_yates, 3.8807223, 1e-7);
  EXPECT_NEAR(*out.p_yates, 0.04884354, 1e-8);
  EXPECT_EQ(out.df, 1);
  // Of two by two, every adjusted residual squared is chi-square (analytic).
  EXPECT_NEAR(out.adjusted_residuals[0][0] * out.adjusted_residuals[0][0], out.chi_square, 1e-9);
  EXPECT_EQ(out.drivers.size(), 4U);
}

TEST(Difference, of_eyes_and_hair_is_the_published_chi_square) {
  // 138.3 (Snee's table, as printed in course notes of the SFB 649, Humboldt-Universitaet); 138.2898416 with R.
  EXPECT_NEAR(of(eyes_and_hair()).chi_square, 138.2898416, 1e-7);
  EXPECT_FALSE(of(eyes_and_hair()).chi_square_yates);
}

/// Two small assemblages of three types; all numbers worked from the formula, see docs/methods/difference.md.
std::vector<Family> two_groups() {
  std::vector<Family> out;
  const auto add = [&](std::size_t row, std::size_t column, const std::vector<double>& eves) {
    for (const double eve : eves) out.push_back({row, column, eve});
  };
  add(0, 0, {.10, .25, .05, .40});
  add(0, 1, {.15, .08});
  add(0, 2, {.60, .12, .20});
  add(1, 0, {.10, .05});
  add(1, 1, {.30, .25, .20, .45});
  add(1, 2, {.15, .10, .40});
  return out;
}

TEST(Difference, of_eve_turns_families_into_pseudo_counts) {
  // Calculated with R from the formula, which was derived from the variance of a ratio: C. Orton & P. Tyers 1990,
  // Archeologia e Calcolatori 1: 81-110, was not read.
  NoProgress progress;
  const auto out = difference({"one", "two"}, {"A", "B", "C"}, two_groups(), {.shuffles = 0, .resamples = 0}, progress);
  ASSERT_TRUE(out);
  const std::vector<std::vector<double>> expected{{2.0443265, 0.5877439, 2.3509755}, {0.4444444, 3.5555556, 1.9259259}};
  for (std::size_t i = 0; i < 2; ++i) {
    for (std::size_t j = 0; j < 3; ++j) EXPECT_NEAR(out->pseudo_counts[i][j], expected[i][j], 1e-7);
  }
  EXPECT_NEAR(out->n_effective[0], 4.98304585, 1e-8);
  EXPECT_NEAR(out->n_effective[1], 5.9259259, 1e-7);
  EXPECT_NEAR(out->chi_square, 3.138481575, 1e-8);
  EXPECT_NEAR(out->p, 0.2082031929, 1e-9);
  EXPECT_NEAR(out->g_square, 3.435547436, 1e-8);
  EXPECT_THAT(out->families, ElementsAre(9, 9));
}

TEST(PseudoCounts, of_equal_families_are_one_fewer_than_there_are) {
  // Analytic: 10 families of .1 are worth 9.
  std::vector<Family> families(10, Family{0, 0, 0.1});
  families[3].column = 1;
  const statistics::Matrix out = pseudo_counts(1, 2, families);
  EXPECT_NEAR(out(0, 0) + out(0, 1), 9, 1e-12);
  EXPECT_NEAR(out(0, 1), 0.9, 1e-12);
}

TEST(PseudoCounts, never_are_more_than_families_less_one_and_keep_the_shares) {
  Random random(3);
  for (int run = 0; run < 200; ++run) {
    std::vector<Family> families;
    double sum = 0;
    double of_first = 0;
    for (std::uint32_t k = 0; k < 2 + random.below(20); ++k) {
      families.push_back({0, random.below(3), 0.02 + random.uniform()});
      sum += families.back().eve;
      if (families.back().column == 0) of_first += families.back().eve;
    }
    if (families.size() < 2) continue;
    const statistics::Matrix out = pseudo_counts(1, 3, families);
    const double n = out(0, 0) + out(0, 1) + out(0, 2);
    EXPECT_LE(n, static_cast<double>(families.size()) - 1 + 1e-9);
    EXPECT_NEAR(out(0, 0) / n, of_first / sum, 1e-9);
  }
}

TEST(Difference, by_dealing_families_has_small_p_where_types_lie_apart_and_not_where_they_are_mixed) {
  std::vector<Family> apart;
  std::vector<Family> mixed;
  for (std::size_t k = 0; k < 40; ++k) {
    const double eve = 0.05 + 0.02 * static_cast<double>(k % 7);
    apart.push_back({k % 2, k % 10 == 0 ? 1 - k % 2 : k % 2, eve});
    mixed.push_back({k % 2, k / 2 % 2, eve});
  }
  NoProgress progress;
  const auto a = difference({"a", "b"}, {"x", "y"}, apart, {.shuffles = 499, .resamples = 299}, progress);
  const auto m = difference({"a", "b"}, {"x", "y"}, mixed, {.shuffles = 499, .resamples = 0}, progress);
  EXPECT_LT(*a->p_shuffled, 0.01);
  EXPECT_GT(*m->p_shuffled, 0.3);
  EXPECT_EQ(a->shares.size(), 4U);
  EXPECT_LT(*a->shares[0].low95, a->shares[0].share);
  EXPECT_GT(*a->shares[0].high95, a->shares[0].share);
  EXPECT_EQ(*difference({"a", "b"}, {"x", "y"}, apart, {.shuffles = 499, .resamples = 299}, progress)->p_shuffled,
            *a->p_shuffled);
}

TEST(Difference, of_one_family_in_a_row_is_refused_by_name) {
  NoProgress progress;
  const auto out = difference({"a", "pit 9"}, {"x", "y"}, {{0, 0, .1}, {0, 1, .2}, {1, 0, .3}}, {}, progress);
  EXPECT_EQ(out.error().code, "too_few_families");
  EXPECT_EQ(out.error().message, "fewer than two measurable vessels in pit 9");
}

TEST(Difference, suggests_which_columns_to_merge_and_merges_only_when_told) {
  const CountTable table =
      table_of({"a", "b"}, {"grey", "buff", "lamp", "tile", "jar"}, {50, 30, 2, 4, 6, 40, 45, 1, 5, 5});
  const Difference out = of(table);
  EXPECT_EQ(out.expected_below_5, 4);
  EXPECT_THAT(out.merge_suggestion, ElementsAre("lamp", "tile"));
  const auto merged = merge_columns(table, {{"lamp", "tile"}});
  ASSERT_TRUE(merged);
  EXPECT_THAT(merged->column_labels, ElementsAre("grey", "buff", "lamp + tile", "jar"));
  EXPECT_EQ(merged->counts(0, 2), 6);
  EXPECT_EQ(of(*merged).df, 3);
  EXPECT_EQ(merge_columns(table, {{"lamp", "tiles"}}).error().hint, "did you mean \"tile\"?");
  EXPECT_EQ(merge_columns(table, {{"lamp", "lamp"}}).error().code, "column_twice");
}

/// A. Field 2018, Discovering Statistics, chapter 19 (table and results as printed by B. O'Connor 2022, "Textbook
/// dataset examples"): cats and dogs, trained with affection or food, that danced or did not.
Cube dancing() {
  return {.sides = {"animal", "training", "dance"},
          .sizes = {2, 2, 2},
          .cells = {48, 114, 28, 10, 29, 7, 20, 14},
          .impossible = {}};
}

TEST(LogLinear, agrees_with_published_models_of_three_sides) {
  const auto out = log_linear(dancing());
  ASSERT_TRUE(out);
  EXPECT_EQ(out->total, 270);
  const Model& independent = out->models.front();
  EXPECT_EQ(independent.terms, "animal, training, dance");
  EXPECT_NEAR(independent.g_square, 72.267, 0.0005);
  EXPECT_NEAR(independent.chi_square, 67.174, 0.0005);
  EXPECT_EQ(independent.df, 4);
  const Model& pairs = out->models.back();
  EXPECT_EQ(pairs.terms, "animal*training, animal*dance, training*dance");
  EXPECT_NEAR(pairs.g_square, 20.305, 0.0005);
  EXPECT_NEAR(pairs.chi_square, 20.777, 0.0005);
  EXPECT_EQ(pairs.df, 1);
  EXPECT_TRUE(pairs.converged);
  EXPECT_EQ(out->simplest, "");
}

TEST(LogLinear, leaves_structural_zeros_out_of_fit_and_degrees) {
  // Analytic: with one impossible cell of 2 x 2 x 2, independence has 7 - 4 degrees of freedom; a table that is
  // independent everywhere else fits exactly.
  Cube cube{.sides = {"a", "b", "c"}, .sizes = {2, 2, 2}, .cells = {}, .impossible = {}};
  const std::vector<double> side{3, 2};
  for (std::size_t cell = 0; cell < 8; ++cell) {
    cube.impossible.push_back(cell == 5);
    cube.cells.push_back(cell == 5 ? 0 : 10 * side[cell / 4] * side[cell / 2 % 2] * side[cell % 2]);
  }
  const auto out = log_linear(cube);
  ASSERT_TRUE(out);
  EXPECT_EQ(out->models.front().df, 3);
  EXPECT_NEAR(out->models.front().g_square, 0, 1e-6);
  EXPECT_EQ(out->structural_zeros, 1);
  EXPECT_EQ(out->simplest, "a, b, c");
  cube.impossible[0] = true;
  EXPECT_EQ(log_linear(cube).error().code, "bad_cube");
}

}  // namespace
}  // namespace sherd::compare
