#include "methods/dating/stem_bore.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

#include "methods/dating/stem_bore_table.h"

namespace sherd::dating {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

StemBores dated(const std::vector<BoreCount>& counts) {
  auto result = date_stem_bores(counts, {.resamples = 2000, .seed = 7});
  EXPECT_TRUE(result) << result.error().message;
  return std::move(*result);
}

// Published with input and output: M. R. Holland, Wolverhampton Archaeology Group, page on clay pipes: 22 stems of 4,
// 42 of 5 and 6 of 6 64ths, sum 334 over 70, mean 4.77; 1749 by Binford's line, 1751 by Heighton and Deagan's curve.
const std::vector<BoreCount> kPublished{{4, 22}, {5, 42}, {6, 6}};

TEST(StemBores, give_the_published_dates_of_a_worked_example) {
  const StemBores bores = dated(kPublished);
  EXPECT_EQ(bores.stems, 70);
  EXPECT_NEAR(bores.mean, 334.0 / 70.0, 1e-12);
  EXPECT_EQ(std::lround(*bores.formulas[0].year), 1749);
  EXPECT_EQ(std::lround(*bores.formulas[1].year), 1751);
  // Calculated: 1931.85 - 38.26 x 4.771428571 and the curve to three places.
  EXPECT_NEAR(*bores.formulas[0].year, 1749.295, 5e-4);
  EXPECT_NEAR(*bores.formulas[1].year, 1751.116, 5e-4);
  EXPECT_THAT(bores.cautions, IsEmpty());
}

TEST(StemBores, give_the_published_date_of_a_single_bore) {
  // 7/64 gives 1664 in a published list of single bores; the other values of that line are calculated.
  const std::array<double, 5> line{1778.81, 1740.55, 1702.29, 1664.03, 1625.77};
  for (std::size_t i = 0; i < line.size(); ++i)
    EXPECT_NEAR(*dated({{4 + static_cast<std::int64_t>(i), 40}}).formulas[0].year, line[i], 1e-9);
}

TEST(StemBores, limits_approach_the_standard_error_of_the_mean) {
  // Analytic: resamples of n stems have the standard deviation sd sqrt((n - 1) / n) / sqrt n; by the line each 64th is
  // 38.26 years. The sample's own is 0.5939655 of a 64th, calculated.
  const StemBores bores = dated(kPublished);
  EXPECT_NEAR(bores.sd, 0.5939655, 5e-8);
  const double reach = 1.96 * 38.26 * bores.sd / std::sqrt(70.0);
  EXPECT_NEAR(*bores.formulas[0].high95 - *bores.formulas[0].low95, 2 * reach, 0.1 * 2 * reach);
  const StemBores many = dated({{4, 22'000}, {5, 42'000}, {6, 6'000}});
  EXPECT_NEAR(*many.formulas[0].high95 - *many.formulas[0].low95, 2 * 1.96 * 38.26 * many.sd / std::sqrt(70'000.0),
              1e-9);
}

TEST(StemBores, a_year_outside_the_validity_of_a_formula_is_refused_and_the_table_still_answers) {
  const StemBores bores = dated({{9, 40}});  // the line gives 1587.51
  EXPECT_FALSE(bores.formulas[0].year);
  EXPECT_FALSE(bores.formulas[0].low95);
  EXPECT_EQ(bores.formulas[0].caution, "gives 1588, outside 1600-1800: refused");
  EXPECT_TRUE(bores.formulas[1].year);  // the curve gives 1637
  EXPECT_EQ(bores.formulas[1].caution, "usually held to be good for about 1680-1760 only");
  // A published table of single bores (after Harrington 1954): 9/64 is 1590-1620.
  EXPECT_GT(bores.periods[0].share, 0.99);
}

TEST(StemBores, every_formula_says_how_it_is_known) {
  for (const BoreFormula& formula : dated(kPublished).formulas) EXPECT_THAT(formula.known, StartsWith("from memory"));
  for (const BorePeriod& period : dated(kPublished).periods) EXPECT_FALSE(period.known.empty());
}

TEST(StemBores, of_a_few_stems_carry_a_caution_and_of_one_no_limits) {
  EXPECT_THAT(dated({{5, 29}}).cautions, ElementsAre(HasSubstr("29 stems: below 30")));
  EXPECT_THAT(dated({{5, 30}}).cautions, IsEmpty());
  const StemBores one = dated({{5, 1}});
  EXPECT_TRUE(one.formulas[0].year);
  EXPECT_FALSE(one.formulas[0].low95);
  EXPECT_EQ(one.sd, 0);
}

TEST(StemBores, in_the_percentages_of_one_period_are_of_that_period) {
  // Percentages of 1650-1680 as read (after Harrington 1954): 7/64 57, 8/64 25, 6/64 18.
  const StemBores bores = dated({{6, 18}, {7, 57}, {8, 25}});
  EXPECT_EQ(bores.periods[2].from, Year{1650});
  EXPECT_NEAR(bores.periods[2].share, 1, 1e-3);
  EXPECT_NEAR(*bores.periods[2].similarity, 200, 1e-9);
  for (const BorePeriod& period : bores.periods) EXPECT_LE(*period.similarity, 200);
}

TEST(StemBores, of_two_periods_far_apart_are_told_so) {
  // Half of each, by the table: 1620-1650 (20, 59, 21 of 7, 8, 9) and 1710-1750 (14, 72, 14 of 4, 5, 6).
  const StemBores bores = dated({{7, 20}, {8, 59}, {9, 21}, {4, 14}, {5, 72}, {6, 14}});
  EXPECT_NEAR(bores.periods[1].share, 0.5, 0.01);
  EXPECT_NEAR(bores.periods[4].share, 0.5, 0.01);
  EXPECT_THAT(bores.cautions, Contains(HasSubstr("two groups, 1620-1650 and 1710-1750")));
}

TEST(StemBores, shares_of_the_periods_add_up_and_bores_outside_the_table_are_told) {
  const StemBores bores = dated({{3, 5}, {4, 10}, {6, 40}, {11, 2}});
  double sum = 0;
  for (const BorePeriod& period : bores.periods) sum += period.share;
  EXPECT_NEAR(sum, 1, 1e-9);
  EXPECT_EQ(bores.outside_table, 7);
  EXPECT_THAT(bores.cautions, Contains("7 stems with bores that the table of periods does not have"));
  EXPECT_FALSE(dated({{3, 40}}).periods[0].similarity);
}

TEST(StemBores, rows_of_the_table_are_whole) {
  std::int64_t last = 1590;
  for (const BoreRow& row : kBoreTable) {
    double sum = 0;
    for (const double percent : row.percent) sum += percent;
    EXPECT_DOUBLE_EQ(sum, 100);
    EXPECT_EQ(row.from, last);
    last = row.to;
  }
}

TEST(StemBores, given_twice_add_up_and_the_same_seed_gives_the_same_limits) {
  const StemBores once = dated({{5, 40}, {6, 10}});
  const StemBores twice = dated({{6, 10}, {5, 15}, {5, 25}});
  EXPECT_EQ(once.mean, twice.mean);
  EXPECT_EQ(once.formulas[0].low95, twice.formulas[0].low95);
}

TEST(StemBores, that_cannot_be_are_refused) {
  const auto code = [](const std::vector<BoreCount>& counts) { return date_stem_bores(counts, {}).error().code; };
  EXPECT_EQ(code({}), "no_stems");
  EXPECT_EQ(code({{5, 0}}), "no_stems");
  EXPECT_EQ(code({{5, -1}}), "negative_count");
  EXPECT_EQ(code({{0, 3}}), "bore_unlikely");
  EXPECT_EQ(code({{17, 3}}), "bore_unlikely");
  EXPECT_EQ(date_stem_bores(kPublished, {.resamples = 0}).error().code, "too_many_resamples");
}

}  // namespace
}  // namespace sherd::dating
