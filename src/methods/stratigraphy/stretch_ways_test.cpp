#include "methods/stratigraphy/stretch_ways.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include "methods/stratigraphy/problem_testing.h"

namespace sherd::stratigraphy {
namespace {

using Below = std::vector<std::vector<std::uint32_t>>;

Problem ordered(std::size_t years, const Below& below) {
  Problem out = flat_problem(years, below.size());
  out.below = below;
  out = in_one_stretch(std::move(out));
  out.stretches[0].log_ways = log_ways(out, out.stretches[0]);
  return out;
}

Below row_of(std::uint32_t units) {
  Below out(units);
  for (std::uint32_t u = 1; u < units; ++u) out[u] = {u - 1};
  return out;
}

/// Ways to put units into `years` years in their order, by trying all.
double count(const Below& below, std::size_t years) {
  std::vector<std::size_t> at(below.size(), 0);
  double found = 0;
  while (true) {
    bool kept = true;
    for (std::size_t u = 0; u < below.size(); ++u) {
      for (const std::uint32_t other : below[u]) kept = kept && at[other] <= at[u];
    }
    found += kept ? 1 : 0;
    std::size_t u = 0;
    while (u < at.size() && ++at[u] == years) at[u++] = 0;
    if (u == at.size()) return found;
  }
}

/// Every order of so many units in which none lies above a later one, redundant relations among them.
std::vector<Below> orders_of(std::uint32_t units) {
  std::vector<std::pair<std::uint32_t, std::uint32_t>> pairs;
  for (std::uint32_t u = 0; u < units; ++u) {
    for (std::uint32_t other = 0; other < u; ++other) pairs.emplace_back(u, other);
  }
  std::vector<Below> out;
  for (std::size_t chosen = 0; chosen < (std::size_t{1} << pairs.size()); ++chosen) {
    Below below(units);
    for (std::size_t i = 0; i < pairs.size(); ++i) {
      if ((chosen >> i & 1U) != 0) below[pairs[i].first].push_back(pairs[i].second);
    }
    out.push_back(below);
  }
  return out;
}

double mean_length(const Solved& found) {
  double sum = 0;
  for (std::size_t i = 0; i < found.drawing.draws.size(); ++i)
    sum += found.drawing.draws.boundary(i, 1) - found.drawing.draws.boundary(i, 0);
  return sum / static_cast<double>(found.drawing.draws.size());
}

SequenceSettings run_of(std::int64_t draws) {
  SequenceSettings settings;
  settings.least_draws = settings.draws = draws;
  settings.threads = 2;
  return settings;
}

TEST(StretchWays, of_unrelated_units_are_a_power_and_of_a_row_a_rising_one) {
  const Problem loose = ordered(50, Below(7));
  const Problem row = ordered(50, row_of(7));
  for (std::size_t d = 0; d < 50; ++d) {
    const auto years = static_cast<double>(d + 1);
    EXPECT_NEAR(loose.stretches[0].log_ways[d], 7 * std::log(years), 1e-9);
    double rising = 0;
    for (int i = 0; i < 7; ++i) rising += std::log(years + i);
    EXPECT_NEAR(row.stretches[0].log_ways[d], rising, 1e-9);
  }
}

TEST(StretchWays, of_every_order_of_up_to_four_units_are_those_found_by_trying_all) {
  // Up to a factor: what is compared is how their number grows from 1, 2, 4 and 8 years to 16.
  for (std::uint32_t units = 1; units <= 4; ++units) {
    for (const Below& below : orders_of(units)) {
      const Problem problem = ordered(16, below);
      const double most = std::log(count(below, 16));
      for (const std::size_t years : {1U, 2U, 4U, 8U}) {
        const double exact = most - std::log(count(below, years));
        const std::vector<double>& ways = problem.stretches[0].log_ways;
        EXPECT_NEAR(ways[15] - ways[years - 1], exact, 0.41);
      }
    }
  }
}

TEST(StretchWays, are_the_same_upside_down_and_do_not_look_at_other_stretches) {
  Problem problem = ordered(30, {{}, {0}, {0}, {1}});
  const Problem turned = ordered(30, {{}, {}, {0}, {1, 2}});
  for (std::size_t d = 0; d < 30; ++d)
    EXPECT_NEAR(problem.stretches[0].log_ways[d], turned.stretches[0].log_ways[d], 1e-9);
  problem.stretches[0].units = {1, 2};
  EXPECT_NEAR(log_ways(problem, problem.stretches[0])[9], 2 * std::log(10), 1e-9);
}

TEST(StretchWays, ten_in_a_row_without_evidence_no_longer_fall_into_one_year) {
  // For dates of continuous years the weight d^-n of n in a row makes every length equally likely, since n in order
  // fill the same share of d^n whatever d is: the mean is half the window (after Nicholls & Jones 2001).
  Problem problem = ordered(200, row_of(10));
  const Solved found = solve_by_drawing(problem, run_of(6000));
  EXPECT_TRUE(found.drawing.converged) << found.drawing.worst_rhat << " " << found.drawing.least_effective;
  EXPECT_NEAR(mean_length(found), 99.5, 7);
  problem.stretches[0].log_ways.clear();
  EXPECT_LT(mean_length(solve_by_drawing(problem, run_of(1000))), 1);
}

TEST(StretchWays, a_sampler_with_them_agrees_with_trying_every_state) {
  for (const Below& below : {Below{{}, {0}, {0}}, Below{{}, {0}, {1}}, Below{{}, {}, {0, 1}}}) {
    const Problem problem = ordered(7, below);
    const Solved found = solve_by_drawing(problem, run_of(20'000));
    const Enumerated exact = enumerate(problem);
    for (std::size_t u = 0; u < 3; ++u) {
      for (std::size_t t = 0; t < 7; ++t)
        EXPECT_NEAR(found.marginals[u][0][t], exact.marginals[u][0][t], 0.006) << "unit " << u << " year " << t;
    }
  }
}

}  // namespace
}  // namespace sherd::stratigraphy
