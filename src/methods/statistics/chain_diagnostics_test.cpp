#include "methods/statistics/chain_diagnostics.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "base/random.h"

namespace sherd::statistics {
namespace {

using Chain = std::vector<std::int32_t>;

std::vector<Chain> drawn(std::size_t chains, std::size_t draws, double correlation, double shift = 0) {
  std::vector<Chain> out;
  for (std::size_t c = 0; c < chains; ++c) {
    Random random(7, c);
    Chain chain;
    double x = random.normal();
    for (std::size_t i = 0; i < draws; ++i) {
      x = correlation * x + std::sqrt(1 - correlation * correlation) * random.normal();
      chain.push_back(static_cast<std::int32_t>(std::lround(100 * (x + shift * static_cast<double>(c)))));
    }
    out.push_back(std::move(chain));
  }
  return out;
}

TEST(NormalQuantile, agrees_with_the_printed_tables) {
  // Upper points of the standard normal distribution as any printed table has them.
  EXPECT_NEAR(normal_quantile(0.975), 1.959964, 1e-6);
  EXPECT_NEAR(normal_quantile(0.95), 1.644854, 1e-6);
  EXPECT_NEAR(normal_quantile(0.001), -3.090232, 1e-6);
  EXPECT_NEAR(normal_quantile(0.5), 0, 1e-12);
  for (const double p : {1e-12, 1e-5, 0.03, 0.4, 0.7, 0.9999})
    EXPECT_NEAR(0.5 * std::erfc(-normal_quantile(p) / std::sqrt(2.0)) / p, 1, 1e-9) << p;
}

TEST(Rhat, of_two_short_chains_by_hand) {
  // Means 2 and 4, variances 1 and 1: W = 1, variance of the means = 2, pooled = 2/3 x 1 + 2.
  const std::vector<std::vector<double>> chains{{1, 2, 3}, {3, 4, 5}};
  EXPECT_NEAR(plain_rhat(chains), std::sqrt(2.0 / 3 + 2), 1e-12);
  EXPECT_EQ(plain_rhat(std::vector<std::vector<double>>{{1, 1}, {1, 1}}), 1);
  EXPECT_EQ(plain_rhat(std::vector<std::vector<double>>{{1, 1}, {2, 2}}), std::numeric_limits<double>::infinity());
}

TEST(Effective, of_one_short_chain_by_hand) {
  // 1, 2, 3, 4: variance 5/3 (divisor 3), pooled 3/4 of it; lag 1 (divisor 4): 1.25 / 4, so that its correlation is
  // 1 - (5/3 - 5/16) / (5/4) < 0. One pair: 2 x 0.9167 - 1 = 0.83, but no less than 1 / log10(4).
  EXPECT_NEAR(plain_effective(std::vector<std::vector<double>>{{1, 2, 3, 4}}), 4 * std::log10(4.0), 1e-9);
}

TEST(ChainDiagnostics, independent_draws_are_worth_themselves) {
  const auto out = chain_diagnostics(drawn(4, 2000, 0));
  EXPECT_LT(out.rhat, 1.005);
  EXPECT_NEAR(out.bulk / 8000, 1, 0.1);
  EXPECT_NEAR(out.tail / 8000, 1, 0.1);
}

TEST(ChainDiagnostics, correlated_draws_are_worth_what_theory_says) {
  // An autoregression of order 1 has (1 - r) / (1 + r) effective draws a draw.
  for (const double r : {0.5, 0.9}) {
    const auto out = chain_diagnostics(drawn(4, 10'000, r));
    EXPECT_NEAR(out.bulk / 40'000 / ((1 - r) / (1 + r)), 1, 0.15) << r;
  }
}

TEST(ChainDiagnostics, chains_in_different_places_or_of_different_width_are_found) {
  EXPECT_GT(chain_diagnostics(drawn(4, 1000, 0, 1)).rhat, 1.2);
  auto chains = drawn(4, 1000, 0);
  for (std::int32_t& value : chains[0]) value *= 4;
  EXPECT_GT(chain_diagnostics(chains).rhat, 1.05);
}

TEST(ChainDiagnostics, a_quantity_that_never_changes_is_known) {
  const auto out = chain_diagnostics(std::vector<Chain>(4, Chain(100, 7)));
  EXPECT_EQ(out.rhat, 1);
  EXPECT_EQ(out.bulk, 400);
}

TEST(ChainDiagnostics, a_rare_value_in_one_chain_only_still_gives_numbers) {
  std::vector<Chain> chains(4, Chain(100, 7));
  chains[2][50] = 8;
  const auto out = chain_diagnostics(chains);
  EXPECT_TRUE(std::isfinite(out.rhat));
  EXPECT_GT(out.tail, 0);
}

}  // namespace
}  // namespace sherd::statistics
