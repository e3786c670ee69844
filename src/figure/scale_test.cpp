#include "figure/scale.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>

namespace sherd::figure {
namespace {

using testing::ElementsAre;

std::vector<std::int64_t> historical_years(const std::vector<Year>& years) {
  std::vector<std::int64_t> out;
  for (const Year year : years) out.push_back(historical(year));
  return out;
}

// Heckbert 1990, Graphics Gems, p. 61: "nice" numbers are 1, 2 or 5 times a power of ten; his worked example labels
// data from 105 to 543 every 100 (from memory; the rule, not the layout, is what is checked).
TEST(Ticks, AreEveryHundredFor105To543) { EXPECT_THAT(ticks(105, 543, 5), ElementsAre(200, 300, 400, 500)); }

TEST(Ticks, GoThroughZeroExactly) { EXPECT_THAT(ticks(-0.3, 0.3, 3), ElementsAre(-0.2, 0, 0.2)); }
TEST(Ticks, OfOneValueAreThatValue) { EXPECT_THAT(ticks(7, 7, 5), ElementsAre(7)); }
TEST(Ticks, OfNoNumberAreNone) { EXPECT_TRUE(ticks(0, NAN, 5).empty()); }

TEST(Ticks, AreAscendingRoundAndWithinTheirRange) {
  EXPECT_TRUE(rc::check([](double a, double b) {
    RC_PRE(std::isfinite(a) && std::isfinite(b) && a != b);
    RC_PRE(std::abs(a - b) > 1e-9 * std::max(std::abs(a), std::abs(b)));
    const auto [low, high] = std::minmax(a, b);
    const auto at_most = *rc::gen::inRange<std::size_t>(2, 12);
    const std::vector<double> found = ticks(low, high, at_most);
    RC_ASSERT(found.size() <= at_most);
    RC_ASSERT(std::ranges::is_sorted(found, std::less_equal{}));
    const double slack = (high - low) * 1e-6;
    for (const double tick : found) RC_ASSERT(tick >= low - slack && tick <= high + slack);
    if (found.size() < 2) return;
    const double step = found[1] - found[0], lead = step / std::pow(10, std::floor(std::log10(step) + 1e-6));
    RC_ASSERT(std::abs(lead - 1) < 1e-3 || std::abs(lead - 2) < 1e-3 || std::abs(lead - 5) < 1e-3);
  }));
}

TEST(TickLabels, HaveAsManyDecimalsAsTellThemApart) {
  EXPECT_EQ(tick_label(0.05, {0, 0.05, 0.1}), "0.05");
  EXPECT_EQ(tick_label(1500, {0, 500, 1000, 1500}), "1,500");
  EXPECT_EQ(tick_label(0, {0, 0.5}), "0.0");
  EXPECT_EQ(tick_label(-20, {-20, 0}), "\u221220");
}

TEST(YearTicks, HaveNoYearZero) {
  EXPECT_THAT(historical_years(year_ticks(from_historical(-120), Year{220}, 8)),
              ElementsAre(-100, -50, 1, 50, 100, 150, 200));
}

TEST(YearTicks, AreHistoricalMultiplesBeforeChrist) {
  EXPECT_THAT(historical_years(year_ticks(from_historical(-400), from_historical(-90), 5)),
              ElementsAre(-400, -300, -200, -100));
}

TEST(YearTicks, OfAShortSpanAreSingleYears) {
  EXPECT_THAT(historical_years(year_ticks(from_historical(-2), Year{2}, 5)), ElementsAre(-2, -1, 1, 2));
}

TEST(YearTicks, AreAscendingAndWithinTheirRange) {
  EXPECT_TRUE(rc::check([] {
    const auto first = *rc::gen::inRange<std::int64_t>(-12000, 2100);
    const auto length = *rc::gen::inRange<std::int64_t>(0, 14000);
    const auto at_most = *rc::gen::inRange<std::size_t>(2, 12);
    const std::vector<Year> found = year_ticks(Year{first}, Year{first + length}, at_most);
    RC_ASSERT(found.size() <= at_most);
    for (std::size_t i = 0; i < found.size(); ++i) {
      RC_ASSERT(found[i].value >= first && found[i].value <= first + length);
      if (i > 0) RC_ASSERT(found[i - 1] < found[i]);
    }
  }));
}

TEST(YearLabels, SayAdWhereTheAxisBeginsBeforeIt) {
  EXPECT_EQ(year_label(Year{1}, Year{-99}), "AD 1");
  EXPECT_EQ(year_label(Year{1}, Year{1}), "1");
  EXPECT_EQ(year_label(from_historical(-100), Year{-120}), "100 BC");
  EXPECT_EQ(year_label(Year{300}, Year{-120}), "300");
}

TEST(YearScale, ARangeIncludesItsLastYear) {
  const YearScale scale(Year{101}, Year{200}, 10, 110);
  EXPECT_DOUBLE_EQ(scale.start_mm(Year{101}), 10);
  EXPECT_DOUBLE_EQ(scale.end_mm(Year{200}), 110);
  EXPECT_DOUBLE_EQ(scale.end_mm(Year{150}), scale.start_mm(Year{151}));
}

TEST(LinearScale, PutsEverythingInTheMiddleWhereThereIsNoRange) {
  EXPECT_DOUBLE_EQ(LinearScale(5, 5, 10, 20).mm(5), 15);
}

}  // namespace
}  // namespace sherd::figure
