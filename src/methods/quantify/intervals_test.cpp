#include <gtest/gtest.h>

#include <cmath>

#include "methods/quantify/tally.h"

namespace sherd::quantify {
namespace {

/// `of_a` vessels of fabric a and the rest of b; each of `lines_each` lines of one sherd, named where asked.
Tally sampled(int vessels, int of_a, int lines_each, bool named, std::uint64_t seed = 1) {
  Column fabric(CellType::text);
  Column vessel(CellType::text);
  Column count(CellType::count);
  for (int v = 0; v < vessels; ++v) {
    for (int i = 0; i < lines_each; ++i) {
      fabric.push_text(v < of_a ? "a" : "b");
      vessel.push_text(named ? "v" + std::to_string(v) : "");
      count.push_integer(1);
    }
  }
  NoProgress progress;
  auto result = tally({.lines = count.size(),
                       .line = {.count = &count, .vessel = &vessel},
                       .rim = {},
                       .by = {&fabric},
                       .only = std::nullopt,
                       .resamples = 2000,
                       .seed = seed},
                      progress);
  EXPECT_TRUE(result);
  return std::move(*result);
}

double width(const statistics::Interval& interval) { return interval[1] - interval[0]; }

TEST(Intervals, of_a_share_agree_with_the_standard_error_of_a_proportion) {
  // Freese, "Elementary statistical methods for foresters" (title from memory): p = .48, n = 1000 has the standard
  // error .0158 (a sample small against its population). The 95 % width is 2 x 1.96 of these; the bound is what 2000
  // resamples leave open.
  const Tally result = sampled(1000, 480, 1, false);
  const auto& interval = result.rows[0].intervals->count_share;
  ASSERT_TRUE(interval);
  EXPECT_NEAR(width(*interval), 2 * 1.96 * 0.0158, 0.006);
  EXPECT_NEAR(((*interval)[0] + (*interval)[1]) / 2, 0.48, 0.003);
  EXPECT_EQ(result.intervals->unit, "lines");
  EXPECT_EQ(result.intervals->units, 1000);
}

TEST(Intervals, take_a_vessel_and_not_its_sherds_as_the_unit) {
  // Analytic: with m vessels of ten sherds each the share's standard error is that of m, not of 10 m, draws.
  const Tally result = sampled(100, 48, 10, true);
  EXPECT_NEAR(width(*result.rows[0].intervals->count_share), 2 * 1.96 * std::sqrt(0.48 * 0.52 / 100), 0.02);
  EXPECT_EQ(result.intervals->unit, "vessels");
  EXPECT_EQ(result.intervals->units, 100);
  EXPECT_NE(result.intervals->about.find("2000 resamples of 100 vessels"), std::string::npos);
}

TEST(Intervals, are_the_same_for_the_same_seed_and_differ_for_another) {
  const auto first = *sampled(200, 70, 1, false, 5).rows[0].intervals->count_share;
  const auto again = *sampled(200, 70, 1, false, 5).rows[0].intervals->count_share;
  EXPECT_EQ(first, again);
  const auto other = *sampled(200, 70, 1, false, 6).rows[0].intervals->count_share;
  EXPECT_NEAR(first[0], other[0], 0.02);
}

TEST(Intervals, are_null_where_a_figure_is_undefined_or_rests_on_too_few_vessels) {
  const Tally result = sampled(50, 1, 1, true);
  const TallyRow& lone = result.rows[0];
  EXPECT_FALSE(lone.intervals->eve_share);
  EXPECT_FALSE(lone.intervals->brokenness);
  EXPECT_FALSE(lone.intervals->weight_share);
  ASSERT_TRUE(lone.intervals->vessels_share);
  EXPECT_EQ((*lone.intervals->vessels_share)[0], 0.0);
  EXPECT_FALSE(result.total.intervals->count_share);
}

TEST(Intervals, of_mean_weight_are_null_for_a_fabric_of_one_line_among_many) {
  Column fabric(CellType::text);
  Column count(CellType::count);
  Column weight(CellType::weight);
  for (int i = 0; i < 40; ++i) {
    fabric.push_text(i == 0 ? "rare" : "usual");
    count.push_integer(2);
    weight.push_integer(4000 + 100 * i);
  }
  NoProgress progress;
  const auto result = tally({.lines = 40,
                             .line = {.count = &count, .weight = &weight},
                             .rim = {},
                             .by = {&fabric},
                             .only = std::nullopt,
                             .resamples = 400},
                            progress);
  ASSERT_TRUE(result);
  EXPECT_EQ(result->rows[0].mean_weight_g, 2.0);
  EXPECT_FALSE(result->rows[0].intervals->mean_weight_g);
  const auto& usual = result->rows[1];
  ASSERT_TRUE(usual.intervals->mean_weight_g);
  EXPECT_LT((*usual.intervals->mean_weight_g)[0], *usual.mean_weight_g);
  EXPECT_GT((*usual.intervals->mean_weight_g)[1], *usual.mean_weight_g);
}

class StopsAtOnce final : public Progress {
 public:
  bool step(double, std::string_view) override { return false; }
};

TEST(Intervals, can_be_stopped) {
  Column count(CellType::count);
  count.push_integer(1);
  StopsAtOnce progress;
  const auto result = tally(
      {.lines = 1, .line = {.count = &count}, .rim = {}, .by = {}, .only = std::nullopt, .resamples = 10}, progress);
  ASSERT_FALSE(result);
  EXPECT_EQ(result.error().kind, ErrorKind::stopped);
}

}  // namespace
}  // namespace sherd::quantify
