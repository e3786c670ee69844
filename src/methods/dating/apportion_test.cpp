#include "methods/dating/apportion.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

namespace sherd::dating {
namespace {

DatedAmount of(std::int64_t from, std::int64_t to, double amount) { return {{Year{from}, Year{to}}, amount}; }

Curve curve_of(const std::vector<DatedAmount>& amounts, CurveSettings settings) {
  auto result = apportion(amounts, settings);
  EXPECT_TRUE(result) << result.error().message;
  return std::move(*result);
}

TEST(Apportion, gives_the_published_rule_on_half_open_ranges) {
  // The rule (Ratcliffe 2000; Johnson 2004; Crema 2012) takes a range as [a, b) with the weight of a bin its overlap
  // over b - a. In calendar years [100, 200) is 100 to 199, both counted. Ranges 100-200 x 10, 150-250 x 4,
  // 120-140 x 3, 100-400 x 6 in bins of 50 from 100; the answer 9 8 3 1 1 1 is calculated.
  const Curve curve =
      curve_of({of(100, 199, 10), of(150, 249, 4), of(120, 139, 3), of(100, 399, 6)}, {.width = 50, .origin = {100}});
  const std::vector<double> expected{9, 8, 3, 1, 1, 1};
  ASSERT_EQ(curve.bins.size(), expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) EXPECT_NEAR(curve.bins[i].value, expected[i], 1e-12);
  EXPECT_EQ(curve.bins[0].from, Year{100});
  EXPECT_EQ(curve.bins[0].to, Year{149});
  EXPECT_DOUBLE_EQ(curve.dated, 23);
}

TEST(Apportion, counts_both_end_years_of_a_range) {
  const Curve curve = curve_of({of(101, 200, 10)}, {.width = 50});
  ASSERT_EQ(curve.bins.size(), 2U);
  EXPECT_EQ(curve.bins[0].from, Year{101});
  EXPECT_EQ(curve.bins[1].to, Year{200});
  EXPECT_DOUBLE_EQ(curve.bins[0].value, 5);
  EXPECT_DOUBLE_EQ(curve.bins[1].value, 5);
}

TEST(Apportion, puts_an_exact_year_into_its_bin_alone) {
  const Curve curve = curve_of({of(1720, 1720, 3)}, {.width = 25});
  ASSERT_EQ(curve.bins.size(), 1U);
  EXPECT_DOUBLE_EQ(curve.bins[0].value, 3);
}

TEST(Apportion, steps_from_1_bc_to_ad_1_without_a_year_between) {
  // 50 BC to AD 50 is 100 years: -49..50 inside.
  const Curve curve = curve_of({of(-49, 50, 100)}, {.width = 50});
  ASSERT_EQ(curve.bins.size(), 2U);
  EXPECT_EQ(historical(curve.bins[0].from), -50);
  EXPECT_EQ(historical(curve.bins[0].to), -1);
  EXPECT_EQ(historical(curve.bins[1].from), 1);
  EXPECT_DOUBLE_EQ(curve.bins[0].value, 50);
  EXPECT_DOUBLE_EQ(curve.bins[1].value, 50);
}

TEST(Apportion, keeps_undated_and_open_amounts_apart) {
  const Curve curve = curve_of({{{}, 2}, {{Year{100}, std::nullopt}, 3}, of(100, 100, 1)}, {});
  EXPECT_DOUBLE_EQ(curve.undated, 5);
  EXPECT_DOUBLE_EQ(curve.dated, 1);
  EXPECT_TRUE(curve_of({{{}, 2}}, {}).bins.empty());
}

TEST(Apportion, refuses_what_it_cannot_draw) {
  EXPECT_EQ(apportion({}, {.width = 0}).error().code, "bin_width");
  EXPECT_EQ(apportion(std::vector{of(-500000, 1900, 1)}, {.width = 1}).error().code, "curve_too_fine");
  EXPECT_EQ(apportion(std::vector{of(200, 100, 1)}, {}).error().code, "reversed_range");
}

TEST(Apportion, by_a_trapezoid_puts_most_into_the_years_of_full_production) {
  // By hand (popularity_test.cpp has the area of 80): 10, 30, 30 and 10 of 80 parts in 101-120, 121-150, 151-180,
  // 181-200.
  const std::vector<DatedAmount> amounts{{{Year{101}, Year{200}}, 80, {Year{121}, Year{180}}}};
  const Curve curve = curve_of(amounts, {.width = 10, .shape = CurveShape::trapezoid});
  ASSERT_EQ(curve.bins.size(), 10U);
  const std::vector<double> expected{2.5, 7.5, 10, 10, 10, 10, 10, 10, 7.5, 2.5};
  for (std::size_t i = 0; i < expected.size(); ++i) EXPECT_NEAR(curve.bins[i].value, expected[i], 1e-12);
}

TEST(Apportion, by_popularity_gives_the_two_middle_quarters_over_two_thirds) {
  // Tables of the normal distribution: 0.6827 within one deviation and 0.9545 within two; 0.6827 / 0.9545 = 0.7153.
  const Curve curve = curve_of({of(101, 200, 100)}, {.width = 25, .shape = CurveShape::popularity});
  ASSERT_EQ(curve.bins.size(), 4U);
  EXPECT_NEAR(curve.bins[1].value + curve.bins[2].value, 71.53, 0.01);
  EXPECT_NEAR(curve.bins[0].value, curve.bins[3].value, 1e-12);
}

TEST(Apportion, refuses_full_production_outside_the_range_where_the_curve_needs_it) {
  const std::vector<DatedAmount> amounts{{{Year{101}, Year{200}}, 1, {Year{90}, Year{150}}}};
  for (const CurveShape shape : {CurveShape::trapezoid, CurveShape::popularity})
    EXPECT_EQ(apportion(amounts, {.shape = shape}).error().code, "full_years");
  EXPECT_TRUE(apportion(amounts, {}));
}

TEST(Apportion, conserves_the_total_and_leaves_no_gap) {
  EXPECT_TRUE(rc::check([] {
    std::vector<DatedAmount> amounts;
    double total = 0;
    const int n = *rc::gen::inRange(1, 20);
    for (int i = 0; i < n; ++i) {
      const std::int64_t from = *rc::gen::inRange<std::int64_t>(-900, 1900);
      const std::int64_t length = *rc::gen::inRange<std::int64_t>(0, 400);
      const double amount = *rc::gen::inRange(0, 1000);
      amounts.push_back(of(from, from + length, amount));
      amounts.back().full.earliest = Year{from + *rc::gen::inRange<std::int64_t>(0, length + 1)};
      total += amount;
    }
    const CurveShape shape = *rc::gen::element(CurveShape::flat, CurveShape::trapezoid, CurveShape::popularity);
    const Curve curve = *apportion(amounts, {.width = *rc::gen::inRange<std::int64_t>(1, 120),
                                             .origin = {*rc::gen::inRange<std::int64_t>(-200, 200)},
                                             .shape = shape});
    double sum = 0;
    for (std::size_t i = 0; i < curve.bins.size(); ++i) {
      sum += curve.bins[i].value;
      RC_ASSERT(curve.bins[i].value >= 0);
      if (i > 0) RC_ASSERT(curve.bins[i].from.value == curve.bins[i - 1].to.value + 1);
    }
    RC_ASSERT(std::abs(sum - total) <= 1e-12 * std::max(1.0, total));
    RC_ASSERT(curve.dated == total);
  }));
}

}  // namespace
}  // namespace sherd::dating
