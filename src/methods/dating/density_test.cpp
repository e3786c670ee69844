#include "methods/dating/density.h"

#include <gtest/gtest.h>

#include <numeric>

#include "methods/dating/when_testing.h"

namespace sherd::dating {
namespace {

Piece piece_of(const DatedRow& row) {
  return {.rows = {&row}, .seen = 1, .nature = nature_of(row.evidence), .readings = {}};
}

double at(const YearDensity& density, std::int64_t year) {
  const std::int64_t i = year - density.first.value;
  return i < 0 || i >= static_cast<std::int64_t>(density.at.size()) ? 0 : density.at[static_cast<std::size_t>(i)];
}

const Window kWide{Year{1000}, Year{2000}};

// By hand: 10 years at 1, and shoulders of 0.8 + 0.6 + 0.4 + 0.2 at either end, 14 in all.
TEST(Density, a_span_has_straight_shoulders_outside_its_ends) {
  const DatedRow span = row({{"ware", "w"}}, 1800, 1809);
  const Piece piece = piece_of(span);
  const YearDensity density = combined({&piece}, kWide, 4);
  EXPECT_NEAR(at(density, 1800), 1.0 / 14, 1e-15);
  EXPECT_NEAR(at(density, 1809), 1.0 / 14, 1e-15);
  EXPECT_NEAR(at(density, 1799), 0.8 / 14, 1e-15);
  EXPECT_NEAR(at(density, 1813), 0.2 / 14, 1e-15);
  EXPECT_EQ(density.first, Year{1796});
  EXPECT_EQ(density.last(), Year{1813});
  EXPECT_NEAR(std::accumulate(density.at.begin(), density.at.end(), 0.0), 1, 1e-12);
}

// By hand: 1/4 2/4 3/4, five years at 1, 2/3 1/3: 7.5 in all; no shoulder where a slope is given.
TEST(Density, a_span_rises_to_full_production_and_falls_from_it) {
  const DatedRow span = full(row({{"ware", "w"}}, 1800, 1809), 1803, 1807);
  const Piece piece = piece_of(span);
  const YearDensity density = combined({&piece}, kWide, 4);
  EXPECT_EQ(density.at.size(), 10u);
  EXPECT_NEAR(at(density, 1800), 0.25 / 7.5, 1e-15);
  EXPECT_NEAR(at(density, 1803), 1 / 7.5, 1e-15);
  EXPECT_NEAR(at(density, 1807), 1 / 7.5, 1e-15);
  EXPECT_NEAR(at(density, 1808), 2.0 / 3 / 7.5, 1e-15);
  EXPECT_NEAR(at(density, 1809), 1.0 / 3 / 7.5, 1e-15);
}

TEST(Density, a_limit_cuts_without_a_shoulder) {
  const DatedRow span = row({{"ware", "w"}}, 1780, 1809);
  const DatedRow law = of_nature(Nature::limit, row({{"mark", "m"}}, 1805, {}));
  const Piece a = piece_of(span), b = piece_of(law);
  const YearDensity density = combined({&a, &b}, kWide, 1);
  EXPECT_EQ(density.first, Year{1805});
  EXPECT_NEAR(at(density, 1805), 1 / 5.5, 1e-15);
  EXPECT_NEAR(at(density, 1810), 0.5 / 5.5, 1e-15);
}

// 0.9 over ten usual years and 0.1 over the hundred that are allowed: 0.091 and 0.001.
TEST(Density, what_is_usual_holds_nine_tenths_and_the_allowed_years_one_tenth) {
  const DatedRow law = of_nature(Nature::limit, row({{"mark", "m"}}, 1800, 1899));
  const DatedRow usual = of_nature(Nature::usual, row({{"bore", "7"}}, 1850, 1859));
  const Piece a = piece_of(law), b = piece_of(usual);
  const YearDensity density = combined({&a, &b}, kWide, 0);
  EXPECT_NEAR(at(density, 1850), 0.091, 1e-12);
  EXPECT_NEAR(at(density, 1800), 0.001, 1e-12);
  const std::vector<YearRange> range = shortest(density, 0.68);
  ASSERT_EQ(range.size(), 1u);
  EXPECT_EQ(range[0].latest->value - range[0].earliest->value + 1, 8);  // 8 x 0.091 = 0.728
}

TEST(Density, what_is_usual_elsewhere_changes_nothing) {
  const DatedRow law = of_nature(Nature::limit, row({{"mark", "m"}}, 1800, 1899));
  const DatedRow usual = of_nature(Nature::usual, row({{"bore", "7"}}, 1650, 1680));
  const Piece a = piece_of(law), b = piece_of(usual);
  EXPECT_NEAR(at(combined({&a, &b}, kWide, 0), 1850), 0.01, 1e-12);
}

TEST(Density, equal_rows_give_the_years_of_either) {
  const DatedRow one = of_nature(Nature::limit, row({{"ware", "w"}}, 1800, 1804));
  const DatedRow other = of_nature(Nature::limit, row({{"ware", "w"}}, 1810, 1814));
  const Piece piece{.rows = {&one, &other}, .seen = 1, .nature = Nature::limit, .readings = {}};
  const YearDensity density = combined({&piece}, kWide, 0);
  EXPECT_NEAR(at(density, 1804), 0.1, 1e-15);
  EXPECT_EQ(at(density, 1807), 0);
  EXPECT_NEAR(at(density, 1810), 0.1, 1e-15);
  EXPECT_EQ(shortest(density, 0.95).size(), 2u);
}

// Three stamps of 1800-1809 and one of 1820-1829: 0.75 and 0.25 of the height, so 0.075 and 0.025 a year.
TEST(Density, readings_are_mixed_by_their_weight) {
  const DatedRow one = of_nature(Nature::limit, row({{"legend", "a"}}, 1800, 1809));
  const DatedRow other = of_nature(Nature::limit, row({{"legend", "b"}}, 1820, 1829));
  Piece piece{.rows = {}, .seen = 1, .nature = Nature::span, .readings = {}};
  piece.readings.push_back({3, {piece_of(one)}});
  piece.readings.push_back({1, {piece_of(other)}});
  const YearDensity density = combined({&piece}, kWide, 0);
  EXPECT_NEAR(at(density, 1805), 0.075, 1e-15);
  EXPECT_NEAR(at(density, 1825), 0.025, 1e-15);
}

TEST(Density, evidence_without_a_common_year_leaves_none) {
  const DatedRow one = row({{"ware", "w"}}, 1700, 1710), other = row({{"edge", "e"}}, 1731, 1740);
  const Piece a = piece_of(one), b = piece_of(other);
  EXPECT_TRUE(combined({&a, &b}, kWide, 10).empty());
  EXPECT_FALSE(combined({&a, &b}, kWide, 11).empty());
}

TEST(Entropy, of_eight_equal_years_is_three_bits) {
  EXPECT_DOUBLE_EQ(entropy_bits({Year{1800}, std::vector<double>(8, 0.125)}), 3);
  EXPECT_DOUBLE_EQ(entropy_bits({Year{1800}, {0.5, 0.25, 0.25}}), 1.5);
  EXPECT_DOUBLE_EQ(entropy_bits({}), 0);
}

TEST(Shortest, of_equally_likely_years_the_middle_ones_are_taken) {
  const YearDensity flat{Year{1801}, std::vector<double>(100, 0.01)};
  const std::vector<YearRange> range = shortest(flat, 0.68);
  ASSERT_EQ(range.size(), 1u);
  EXPECT_EQ(range[0].latest->value - range[0].earliest->value + 1, 68);
  EXPECT_NEAR(static_cast<double>(range[0].earliest->value + range[0].latest->value) / 2, 1850.5, 1);
}

TEST(Shortest, takes_the_likeliest_years_in_several_intervals) {
  const YearDensity density{Year{-1}, {0.3, 0.05, 0.05, 0.3, 0.3}};
  const std::vector<YearRange> range = shortest(density, 0.9);
  ASSERT_EQ(range.size(), 2u);
  EXPECT_EQ(range_text(range[0]), "2 BC");
  EXPECT_EQ(range_text(range[1]), "2-3");
}

TEST(Likeliest, is_the_longest_run_of_the_highest_years) {
  EXPECT_EQ(range_text(likeliest({Year{1800}, {0.2, 0.1, 0.2, 0.2, 0.1, 0.2}})), "1802-1803");
}

TEST(AllowedYears, sets_of_years_are_united_and_intersected) {
  const YearSet a = united_years({{Year{10}, Year{20}}, {Year{21}, Year{25}}, {Year{40}, {}}});
  ASSERT_EQ(a.size(), 2u);
  EXPECT_EQ(range_text(a[0]), "10-25");
  const YearSet both = common_years(a, {{{}, Year{12}}, {Year{24}, Year{50}}});
  ASSERT_EQ(both.size(), 3u);
  EXPECT_EQ(range_text(both[0]), "10-12");
  EXPECT_EQ(range_text(both[1]), "24-25");
  EXPECT_EQ(range_text(both[2]), "40-50");
  EXPECT_TRUE(common_years(a, {{Year{30}, Year{35}}}).empty());
}

}  // namespace
}  // namespace sherd::dating
