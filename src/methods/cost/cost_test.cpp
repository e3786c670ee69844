#include <gtest/gtest.h>

#include <cmath>

#include "methods/cost/estimate.h"
#include "methods/cost/three_points.h"

namespace sherd::cost {
namespace {

Estimate must(const std::vector<Line>& lines, const Settings& settings = {}) {
  NoProgress progress;
  auto found = estimate(lines, settings, progress);
  if (!found) {
    ADD_FAILURE() << found.error().message;
    return {};
  }
  return std::move(*found);
}

// Malcolm et al. 1959 by way of a worked example at schematex.js.org/examples/pert-three-point-estimation: 5, 8 and 14
// days come to 8.5.
TEST(ThreePoints, pert_mean_is_as_in_a_published_example) { EXPECT_DOUBLE_EQ(mean({5, 8, 14}, Shape::pert), 8.5); }

// Moments of the triangular distribution: mean (a + b + c)/3, variance (a^2 + b^2 + c^2 - ab - ac - bc)/18 (NIST
// Dataplot reference manual, TRIPDF; from memory). Of 0, 0.5, 1: 1/2 and 1/24.
TEST(ThreePoints, triangular_moments_are_the_known_ones) {
  EXPECT_DOUBLE_EQ(mean({0, 0.5, 1}, Shape::triangular), 0.5);
  EXPECT_NEAR(standard_deviation({0, 0.5, 1}, Shape::triangular), std::sqrt(1.0 / 24), 1e-12);
}

// Beta(3, 3) has variance 1/28, and its median is its mean.
TEST(ThreePoints, pert_is_the_beta_distribution_with_its_mean) {
  EXPECT_NEAR(standard_deviation({0, 0.5, 1}, Shape::pert), std::sqrt(1.0 / 28), 1e-12);
  EXPECT_NEAR(Quantiles({0, 0.5, 1}, Shape::pert)(0.5), 0.5, 1e-6);
}

TEST(ThreePoints, quantiles_of_the_triangle_are_exact_at_its_mode) {
  const Quantiles quantile({10, 12, 20}, Shape::triangular);  // a fifth lies below the mode
  EXPECT_NEAR(quantile(0.2), 12, 1e-9);
  EXPECT_DOUBLE_EQ(quantile(0), 10);
  EXPECT_DOUBLE_EQ(quantile(1), 20);
  EXPECT_DOUBLE_EQ(Quantiles({7, 7, 7}, Shape::pert)(0.3), 7);
}

TEST(ThreePoints, out_of_order_is_refused) { EXPECT_FALSE(check({3, 2, 4})); }

// By hand: 12 boxes of 200 sherds at 40 an hour are 60 hours; at 30 an hour of pay, 1,800; box fees of 90 each, 1,080.
TEST(Estimate, of_what_is_sure_is_a_product) {
  Line line;
  line.stage = "analysis";
  line.amount = 12;
  line.sherds = ThreePoints{200, 200, 200};
  line.pace = ThreePoints{40, 40, 40};
  line.cost = ThreePoints{90, 90, 90};
  line.rate_hour = 30;
  const Estimate found = must({line});
  EXPECT_DOUBLE_EQ(found.total.hours.likely, 60);
  EXPECT_DOUBLE_EQ(found.total.hours.low, 60);
  EXPECT_DOUBLE_EQ(found.total.hours.high, 60);
  EXPECT_DOUBLE_EQ(found.total.outside.mean, 1080);
  EXPECT_DOUBLE_EQ(found.total.money.mean, 2880);
}

// Least: 100 sherds at 50 an hour; most: 400 at 20. By hand 2, 5 and 20 hours a box.
TEST(Estimate, ends_pair_the_fewest_sherds_with_the_fastest_work) {
  Line line;
  line.stage = "analysis";
  line.sherds = ThreePoints{100, 200, 400};
  line.pace = ThreePoints{20, 40, 50};
  const Estimate found = must({line});
  EXPECT_DOUBLE_EQ(found.total.hours.least, 2);
  EXPECT_DOUBLE_EQ(found.total.hours.likely, 5);
  EXPECT_DOUBLE_EQ(found.total.hours.most, 20);
  EXPECT_GT(found.total.hours.low, 2);
  EXPECT_LT(found.total.hours.high, 20);
}

// Nine lines with hours (10, 20, 30), triangular: each has mean 20 and variance 100/6; the sum has mean 180 and
// standard deviation sqrt(150) = 12.25. 80 % of a normal lie within 1.2816 of them: 164.3 to 195.7 (the sum is nearly
// normal).
TEST(Estimate, lines_that_err_apart_make_up_for_each_other) {
  std::vector<Line> lines(9);
  for (Line& line : lines) line.hours = ThreePoints{10, 20, 30};
  const Estimate found = must(lines);
  EXPECT_NEAR(found.total.hours.mean, 180, 0.3);
  EXPECT_NEAR(found.total.hours.low, 180 - 1.2816 * std::sqrt(150.0), 0.6);
  EXPECT_NEAR(found.total.hours.high, 180 + 1.2816 * std::sqrt(150.0), 0.6);
  EXPECT_DOUBLE_EQ(found.total.hours.least, 90);
}

// The same boxes in nine lines: the sum is nine times one triangle (10, 20, 30), whose tenth percentile is 10 +
// sqrt(0.1 * 20 * 10) = 14.47.
TEST(Estimate, lines_that_share_their_boxes_err_together) {
  std::vector<Line> lines(9);
  for (Line& line : lines) {
    line.sherds_key = "boxes";
    line.sherds = ThreePoints{10, 20, 30};
    line.pace = ThreePoints{1, 1, 1};
  }
  const Estimate found = must(lines);
  EXPECT_NEAR(found.total.hours.low, 9 * (10 + std::sqrt(20.0)), 1.2);
  EXPECT_NEAR(found.total.hours.high, 9 * (30 - std::sqrt(20.0)), 1.2);
}

TEST(Estimate, stages_are_summed_in_their_order) {
  std::vector<Line> lines(3);
  lines[0].stage = "assessment";
  lines[1].stage = "analysis";
  lines[2].stage = "assessment";
  for (Line& line : lines) line.hours = ThreePoints{1, 1, 1};
  const Estimate found = must(lines);
  ASSERT_EQ(found.stages.size(), 2U);
  EXPECT_EQ(found.stages[0].stage, "assessment");
  EXPECT_DOUBLE_EQ(found.stages[0].sum.hours.likely, 2);
  EXPECT_DOUBLE_EQ(found.stages[1].sum.hours.mean, 1);
}

TEST(Estimate, same_seed_gives_the_same_numbers) {
  std::vector<Line> lines(2);
  for (Line& line : lines) line.hours = ThreePoints{1, 2, 9};
  EXPECT_EQ(must(lines).total.hours.high, must(lines).total.hours.high);
  EXPECT_NE(must(lines).total.hours.high, must(lines, {.seed = 2}).total.hours.high);
}

TEST(Estimate, of_nothing_is_nought_and_of_nonsense_is_refused) {
  EXPECT_EQ(must({}).total.money.most, 0);
  NoProgress progress;
  Line line;
  line.sherds = ThreePoints{1, 2, 3};
  line.pace = ThreePoints{0, 1, 2};
  EXPECT_FALSE(estimate({line}, {}, progress));
  EXPECT_FALSE(estimate({}, {.draws = 5}, progress));
  EXPECT_FALSE(estimate({}, {.share = 1}, progress));
}

}  // namespace
}  // namespace sherd::cost
