#include "methods/statistics/draws.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "methods/statistics/distributions.h"

namespace sherd::statistics {
namespace {

double log_probability(double n, double k, double p) {
  return std::lgamma(n + 1) - std::lgamma(k + 1) - std::lgamma(n - k + 1) + k * std::log(p) + (n - k) * std::log1p(-p);
}

/// Chi-square of many draws against the binomial law; cells expected fewer than 20 times are put together.
double p_of_draws(std::int64_t n, double p, int draws, std::uint64_t seed) {
  Random random(seed);
  std::vector<double> seen(static_cast<std::size_t>(n) + 1, 0.0);
  for (int i = 0; i < draws; ++i) ++seen[static_cast<std::size_t>(draw_binomial(n, p, random))];
  double sum = 0;
  double expected = 0;
  double found = 0;
  int cells = 0;
  for (std::int64_t k = 0; k <= n; ++k) {
    expected += draws * std::exp(log_probability(static_cast<double>(n), static_cast<double>(k), p));
    found += seen[static_cast<std::size_t>(k)];
    if (expected < 20 && k < n) continue;
    sum += expected > 0 ? (found - expected) * (found - expected) / expected : 0.0;
    expected = found = 0;
    ++cells;
  }
  return chi_square_upper(sum, cells - 1);
}

TEST(DrawBinomial, follows_the_binomial_law_by_both_ways_of_drawing) {
  EXPECT_GT(p_of_draws(12, 0.3, 40000, 1), 1e-4);    // inversion
  EXPECT_GT(p_of_draws(100, 0.03, 40000, 2), 1e-4);  // inversion
  EXPECT_GT(p_of_draws(40, 0.4, 40000, 3), 1e-4);    // rejection
  EXPECT_GT(p_of_draws(400, 0.8, 40000, 4), 1e-4);   // rejection, from the other side
}

TEST(DrawBinomial, has_no_choice_at_its_ends) {
  Random random(1);
  EXPECT_EQ(draw_binomial(0, 0.5, random), 0);
  EXPECT_EQ(draw_binomial(9, 0, random), 0);
  EXPECT_EQ(draw_binomial(9, 1, random), 9);
}

TEST(DrawMultinomial, keeps_the_total_and_the_shares) {
  Random random(7);
  const std::vector<double> weights{0, 1, 5, 0, 4, 0};
  std::vector<double> drawn;
  std::vector<double> sums(6, 0.0);
  for (int i = 0; i < 5000; ++i) {
    draw_multinomial(30, weights, random, drawn);
    EXPECT_EQ(std::accumulate(drawn.begin(), drawn.end(), 0.0), 30);
    for (std::size_t j = 0; j < 6; ++j) sums[j] += drawn[j];
  }
  EXPECT_EQ(sums[0] + sums[3] + sums[5], 0);
  // Five standard errors of a share of 150,000 pieces.
  EXPECT_NEAR(sums[1] / 150000, 0.1, 5 * std::sqrt(0.1 * 0.9 / 150000));
  EXPECT_NEAR(sums[2] / 150000, 0.5, 5 * std::sqrt(0.5 * 0.5 / 150000));
}

TEST(Shuffle, makes_each_of_six_orders_as_often) {
  Random random(3);
  std::vector<int> seen(6, 0);
  for (int i = 0; i < 12000; ++i) {
    std::vector<int> items{0, 1, 2};
    shuffle(items, random);
    ++seen[static_cast<std::size_t>(items[0] * 2 + (items[1] > items[2] ? 1 : 0))];
  }
  double sum = 0;
  for (const int n : seen) sum += (n - 2000.0) * (n - 2000.0) / 2000.0;
  EXPECT_GT(chi_square_upper(sum, 5), 1e-4);
}

}  // namespace
}  // namespace sherd::statistics
