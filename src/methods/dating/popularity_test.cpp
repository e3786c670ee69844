#include "methods/dating/popularity.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <array>

namespace sherd::dating {
namespace {

Production of(std::int64_t from, std::int64_t to) { return {{Year{from}, Year{to}}, {}}; }
Production of(std::int64_t from, std::int64_t to, std::int64_t full_from, std::int64_t full_to) {
  return {{Year{from}, Year{to}}, {Year{full_from}, Year{full_to}}};
}

double between(CurveShape shape, const Production& production, std::int64_t from, std::int64_t before) {
  return made_before(shape, production, before) - made_before(shape, production, from);
}

TEST(Popularity, gives_the_bell_of_chronological_apportioning) {
  // Roberts, Mills, Clark, Haas, Huntley & Trowbridge 2012, J. Archaeol. Science 39: 1513-20: a bell whose range is two
  // standard deviations to either side, cut to production and occupation. Their formula as we read it; the answer is
  // calculated: made 1100-1300, occupied 1150-1300, bins of 50 years.
  const Production made = of(1100, 1299);
  const double whole = between(CurveShape::popularity, made, 1150, 1300);
  const std::array<double, 3> expected{0.4169887514, 0.4169887514, 0.1660224971};
  for (std::size_t i = 0; i < expected.size(); ++i) {
    const std::int64_t from = 1150 + 50 * static_cast<std::int64_t>(i);
    EXPECT_NEAR(between(CurveShape::popularity, made, from, from + 50) / whole, expected[i], 5e-11);
  }
}

TEST(Popularity, has_its_peak_in_the_middle_of_full_production) {
  // Full production 1120-1139: the peak lies at the start of 1130, 30 of 150 years from the start.
  const Production made = of(1100, 1249, 1120, 1139);
  std::int64_t best = 1100;
  for (std::int64_t year = 1100; year < 1250; ++year) {
    if (between(CurveShape::popularity, made, year, year + 1) > between(CurveShape::popularity, made, best, best + 1))
      best = year;
  }
  EXPECT_TRUE(best == 1129 || best == 1130) << best;
  EXPECT_NEAR(made_before(CurveShape::popularity, made, 1130), 30.0 / 150.0, 1e-12);
}

TEST(Popularity, ends_at_about_a_seventh_of_its_peak) {
  // exp(-2) = 0.1353 of the peak, at both ends (analytic); over 10,000 years a year is as good as a point.
  const Production made = of(1, 10'000);
  const double peak = between(CurveShape::popularity, made, 5000, 5001);
  EXPECT_NEAR(between(CurveShape::popularity, made, 1, 2) / peak, 0.1353, 0.0003);
  EXPECT_NEAR(between(CurveShape::popularity, made, 10'000, 10'001) / peak, 0.1353, 0.0003);
}

TEST(Trapezoid, rises_to_full_production_and_falls_from_it) {
  // By hand: 101-200 with full production 121-180 has the area 20/2 + 60 + 20/2 = 80.
  const Production made = of(101, 200, 121, 180);
  EXPECT_DOUBLE_EQ(made_before(CurveShape::trapezoid, made, 111), 2.5 / 80);
  EXPECT_DOUBLE_EQ(made_before(CurveShape::trapezoid, made, 121), 10.0 / 80);
  EXPECT_DOUBLE_EQ(made_before(CurveShape::trapezoid, made, 151), 40.0 / 80);
  EXPECT_DOUBLE_EQ(made_before(CurveShape::trapezoid, made, 181), 70.0 / 80);
  EXPECT_DOUBLE_EQ(made_before(CurveShape::trapezoid, made, 191), 77.5 / 80);
}

TEST(Trapezoid, without_years_of_full_production_is_flat) {
  const Production made = of(101, 200);
  for (std::int64_t year = 95; year < 210; ++year) {
    EXPECT_NEAR(made_before(CurveShape::trapezoid, made, year), made_before(CurveShape::flat, made, year), 1e-12);
  }
  Production one_end = made;
  one_end.full.latest = Year{150};
  EXPECT_DOUBLE_EQ(made_before(CurveShape::trapezoid, one_end, 151), 50.0 / 75);
}

TEST(Production, is_sound_where_full_production_lies_in_order_within_the_range) {
  EXPECT_TRUE(is_sound(of(101, 200)));
  EXPECT_TRUE(is_sound(of(101, 200, 101, 200)));
  EXPECT_TRUE(is_sound(of(101, 200, 150, 150)));
  EXPECT_FALSE(is_sound(of(101, 200, 100, 150)));
  EXPECT_FALSE(is_sound(of(101, 200, 150, 201)));
  EXPECT_FALSE(is_sound(of(101, 200, 160, 150)));
  EXPECT_FALSE(is_sound({{Year{101}, std::nullopt}, {}}));
}

TEST(EveryCurve, starts_at_nought_ends_at_one_and_never_falls) {
  EXPECT_TRUE(rc::check([] {
    const std::int64_t from = *rc::gen::inRange<std::int64_t>(-900, 1900);
    const std::int64_t to = from + *rc::gen::inRange<std::int64_t>(0, 400);
    const std::int64_t full_from = *rc::gen::inRange<std::int64_t>(from, to + 1);
    const std::int64_t full_to = *rc::gen::inRange<std::int64_t>(full_from, to + 1);
    const Production made = of(from, to, full_from, full_to);
    RC_ASSERT(is_sound(made));
    for (const CurveShape shape : {CurveShape::flat, CurveShape::trapezoid, CurveShape::popularity}) {
      RC_ASSERT(made_before(shape, made, from) == 0.0);
      RC_ASSERT(made_before(shape, made, to + 1) == 1.0);
      double before = 0;
      for (std::int64_t year = from - 2; year <= to + 3; ++year) {
        const double now = made_before(shape, made, year);
        RC_ASSERT(now >= before - 1e-15);
        before = now;
      }
    }
  }));
}

}  // namespace
}  // namespace sherd::dating
