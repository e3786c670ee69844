#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "methods/statistics/quantile.h"
#include "methods/statistics/resample.h"

namespace sherd::statistics {
namespace {

TEST(Quantile, interpolates_as_type_seven_of_hyndman_and_fan) {
  // Hyndman & Fan 1996, definition 7: p(k) = (k - 1)/(n - 1), so that the k-th of n values is its own p(k)-quantile.
  const std::vector<double> values{2, 3, 5, 7, 11, 13};
  for (std::size_t k = 0; k < values.size(); ++k) {
    EXPECT_DOUBLE_EQ(quantile(values, static_cast<double>(k) / 5.0), values[k]);
  }
  // Between them on a straight line; calculated by hand from the definition.
  EXPECT_DOUBLE_EQ(quantile(values, 0.25), 3.5);
  EXPECT_DOUBLE_EQ(quantile(values, 0.5), 6.0);
  EXPECT_DOUBLE_EQ(quantile(values, 0.9), 12.0);
}

TEST(Quantile, of_one_value_is_that_value) {
  const std::vector<double> one{4};
  EXPECT_EQ(quantile(one, 0), 4);
  EXPECT_EQ(quantile(one, 0.3), 4);
  EXPECT_EQ(quantile(one, 1), 4);
}

TEST(CentralInterval, leaves_a_fortieth_at_each_end_whatever_the_order) {
  std::vector<double> values(41);
  std::iota(values.rbegin(), values.rend(), 0.0);
  const auto interval = central_interval(values, 0.95);
  ASSERT_TRUE(interval);
  EXPECT_DOUBLE_EQ((*interval)[0], 1.0);
  EXPECT_DOUBLE_EQ((*interval)[1], 39.0);
  EXPECT_FALSE(central_interval({}));
}

TEST(WeightedMoments, agree_with_a_published_table_of_midpoints) {
  // Midpoints and counts of an open teaching lesson on colonial ceramics; mean and population sd calculated from them.
  const auto moments = weighted_moments(std::vector<double>{1770, 1800, 1820}, std::vector<double>{21, 17, 36});
  ASSERT_TRUE(moments);
  EXPECT_NEAR(moments->mean, 133290.0 / 74.0, 1e-9);
  EXPECT_NEAR(moments->sd, 21.17831, 5e-6);
  EXPECT_FALSE(weighted_moments(std::vector<double>{1.0}, std::vector<double>{0.0}));
}

TEST(ResampleCounts, keeps_the_total_and_never_draws_what_is_not_there) {
  const std::vector<std::int64_t> counts{5, 0, 7, 0};
  Random random(3);
  std::vector<std::int64_t> drawn;
  for (int i = 0; i < 200; ++i) {
    resample_counts(counts, random, drawn);
    EXPECT_EQ(std::accumulate(drawn.begin(), drawn.end(), std::int64_t{0}), 12);
    EXPECT_EQ(drawn[1], 0);
    EXPECT_EQ(drawn[3], 0);
  }
}

TEST(ResampleCounts, has_the_mean_and_variance_of_a_multinomial) {
  // Analytic: E = n p, Var = n p (1 - p); with n = 20, p = 0.3: 6 and 4.2. Bounds are five standard errors wide.
  const std::vector<std::int64_t> counts{6, 14};
  Random random(11);
  std::vector<std::int64_t> drawn;
  double sum = 0;
  double squares = 0;
  constexpr int kRuns = 20000;
  for (int i = 0; i < kRuns; ++i) {
    resample_counts(counts, random, drawn);
    const auto x = static_cast<double>(drawn[0]);
    sum += x;
    squares += x * x;
  }
  const double mean = sum / kRuns;
  EXPECT_NEAR(mean, 6.0, 5 * std::sqrt(4.2 / kRuns));
  EXPECT_NEAR(squares / kRuns - mean * mean, 4.2, 5 * 4.2 * std::sqrt(2.0 / kRuns));
}

}  // namespace
}  // namespace sherd::statistics
