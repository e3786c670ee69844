#include "methods/stratigraphy/sampler.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "methods/stratigraphy/problem_testing.h"

namespace sherd::stratigraphy {
namespace {

SequenceSettings long_run() {
  SequenceSettings settings;
  settings.least_draws = 20'000;
  settings.draws = 20'000;
  settings.threads = 2;
  return settings;
}

/// Uneven likelihoods over three durations; different ones for each unit.
Table uneven(std::size_t years, std::size_t which) {
  Table out{{0, 1, 3}, std::vector<std::vector<double>>(3, std::vector<double>(years))};
  for (std::size_t d = 0; d < 3; ++d) {
    for (std::size_t t = 0; t < years; ++t)
      out.like[d][t] = 1.0 / static_cast<double>(1 + (5 * t + 3 * which + 7 * d * which + 2 * d) % 11);
  }
  return out;
}

Problem small(const std::vector<std::vector<std::uint32_t>>& below, std::size_t years) {
  Problem out;
  out.years = years;
  out.below = below;
  for (std::size_t u = 0; u < below.size(); ++u) out.tables.push_back(uneven(years, u));
  return out;
}

/// Every order of up to three units, redundant relations left out, one of each shape.
std::vector<std::vector<std::vector<std::uint32_t>>> orders() {
  return {{{}}, {{}, {}}, {{}, {0}}, {{}, {}, {}}, {{}, {0}, {}}, {{}, {0}, {1}}, {{}, {0}, {0}}, {{}, {}, {0, 1}}};
}

void expect_near(const std::vector<Chances>& found, const std::vector<Chances>& exact, double by) {
  for (std::size_t u = 0; u < exact.size(); ++u) {
    for (std::size_t d = 0; d < exact[u].size(); ++d) {
      for (std::size_t t = 0; t < exact[u][d].size(); ++t)
        EXPECT_NEAR(found[u][d][t], exact[u][d][t], by) << "unit " << u << " duration " << d << " year " << t;
    }
  }
}

TEST(ExactMarginals, agree_with_trying_every_state_of_every_small_order) {
  for (const auto& order : orders()) {
    const Problem problem = small(order, 9);
    ASSERT_TRUE(is_forest(problem));
    expect_near(exact_marginals(problem), enumerate(problem).marginals, 1e-12);
  }
}

TEST(ExactMarginals, of_a_tree_with_branches_up_and_down) {
  const Problem problem = small({{}, {0}, {0}, {1}}, 7);
  expect_near(exact_marginals(problem), enumerate(problem).marginals, 1e-12);
  const Problem other = small({{}, {}, {0, 1}, {1}}, 7);
  expect_near(exact_marginals(other), enumerate(other).marginals, 1e-12);
}

TEST(IsForest, a_ring_and_a_stretch_are_none) {
  EXPECT_FALSE(is_forest(small({{}, {0}, {0}, {1, 2}}, 7)));
  EXPECT_FALSE(is_forest(in_one_stretch(small({{}, {0}}, 7))));
}

TEST(Sampler, agrees_with_trying_every_state_without_limits) {
  for (const auto& order : orders()) {
    const Problem problem = small(order, 9);
    expect_near(solve_by_drawing(problem, long_run()).marginals, enumerate(problem).marginals, 0.004);
  }
}

TEST(Sampler, agrees_with_trying_every_state_in_one_stretch) {
  for (const auto& order : orders()) {
    const Problem problem = in_one_stretch(small(order, 6));
    const Solved found = solve_by_drawing(problem, long_run());
    const Enumerated exact = enumerate(problem);
    expect_near(found.marginals, exact.marginals, 0.006);
    for (std::size_t k = 0; k < exact.boundaries.size(); ++k) {
      std::vector<double> share(problem.years, 0);
      for (std::size_t i = 0; i < found.drawing.draws.size(); ++i)
        share[static_cast<std::size_t>(found.drawing.draws.boundary(i, k))] +=
            1 / static_cast<double>(found.drawing.draws.size());
      for (std::size_t t = 0; t < problem.years; ++t) EXPECT_NEAR(share[t], exact.boundaries[k][t], 0.03);
    }
  }
}

TEST(Sampler, agrees_with_trying_every_state_of_successive_stretches) {
  for (const Succession meet : {Succession::gap, Succession::abutting, Succession::overlap}) {
    Problem problem = small({{}, {0}, {}}, 6);
    problem.stretches = {{{0, 2}, 0, 5}, {{1}, 1, 5}};
    problem.succession = {{0, 1}};
    problem.meet = meet;
    expect_near(solve_by_drawing(problem, long_run()).marginals, enumerate(problem).marginals, 0.006);
  }
}

TEST(Sampler, two_uniform_dates_in_order) {
  // A uniform on 100..200, B on 150..250, A before B. For continuous years P = 0.875, E(A) = 145.24 and E(B) = 204.76,
  // by integration; on a grid of whole years the means differ by less than half a year.
  Problem problem = flat_problem(300, 2);
  problem.tables = {flat_table(300, 100, 200), flat_table(300, 150, 250)};
  problem.below = {{}, {0}};
  for (const auto& marginals : {exact_marginals(problem), solve_by_drawing(problem, long_run()).marginals}) {
    EXPECT_NEAR(mean_year(marginals[0]), 145.238, 0.6);
    EXPECT_NEAR(mean_year(marginals[1]), 204.762, 0.6);
  }
}

TEST(Sampler, the_kth_of_n_uniform_dates_in_a_row) {
  // The k-th order statistic of n uniform dates on (0, R) has the mean k R / (n + 1).
  Problem problem = flat_problem(301, 3);
  problem.below = {{}, {0}, {1}};
  const auto marginals = exact_marginals(problem);
  for (std::size_t k = 0; k < 3; ++k) EXPECT_NEAR(mean_year(marginals[k]), 75.0 * static_cast<double>(k + 1), 0.8);
}

TEST(Sampler, many_units_without_evidence_do_not_by_themselves_make_the_stretch_long) {
  // With the weight (d + 1)^-n / (T - d) and n unordered units without evidence the length is uniform on 0..T-1 but for
  // the grid: its mean is half the window, for 2 units as for 20 (after Nicholls & Jones 2001).
  for (const std::size_t n : {2U, 20U}) {
    const Problem problem = in_one_stretch(flat_problem(200, n));
    const Solved found = solve_by_drawing(problem, long_run());
    double sum = 0;
    for (std::size_t i = 0; i < found.drawing.draws.size(); ++i)
      sum += found.drawing.draws.boundary(i, 1) - found.drawing.draws.boundary(i, 0);
    EXPECT_NEAR(sum / static_cast<double>(found.drawing.draws.size()), 99.5, 5) << n;
    EXPECT_TRUE(found.drawing.converged) << n << " worst " << found.drawing.worst << " R-hat "
                                         << found.drawing.worst_rhat << " effective " << found.drawing.least_effective;
  }
}

TEST(Sampler, disjoint_likelihoods_that_are_in_order_stay_as_they_are) {
  Problem problem = flat_problem(300, 2);
  problem.tables = {flat_table(300, 20, 80), flat_table(300, 150, 200)};
  problem.below = {{}, {0}};
  const auto marginals = exact_marginals(problem);
  for (std::size_t t = 20; t <= 80; ++t) EXPECT_NEAR(marginals[0][0][t], 1.0 / 61, 1e-12);
  for (std::size_t t = 150; t <= 200; ++t) EXPECT_NEAR(marginals[1][0][t], 1.0 / 51, 1e-12);
}

TEST(Schedule, an_impossible_order_is_said_with_those_who_make_it) {
  Problem problem = flat_problem(400, 3);
  problem.tables[0] = flat_table(400, 300, 350);
  problem.tables[2] = flat_table(400, 0, 200);
  problem.below = {{}, {0}, {1}};
  const auto schedule = earliest_schedule(problem, boundaries_of(problem));
  ASSERT_FALSE(schedule);
  std::vector<std::uint32_t> units;
  for (const auto& step : schedule.error().steps) units.push_back(step.unit);
  EXPECT_THAT(units, testing::ElementsAre(0, 1, 2));
  EXPECT_EQ(schedule.error().steps[0].year, 300);
  EXPECT_FALSE(schedule.error().loop);
}

TEST(Schedule, phases_against_the_order_are_a_loop) {
  Problem problem = flat_problem(50, 2);
  problem.below = {{}, {0}};  // 1 lies above 0
  problem.stretches = {{{1}, 0, 49}, {{0}, 0, 49}};
  problem.succession = {{0, 1}};  // but its phase is the earlier one
  const auto schedule = earliest_schedule(problem, boundaries_of(problem));
  ASSERT_FALSE(schedule);
  EXPECT_TRUE(schedule.error().loop);
}

TEST(Sampler, the_same_seed_gives_the_same_draws_on_any_number_of_threads) {
  const Problem problem = in_one_stretch(small({{}, {0}, {0}, {1, 2}}, 60));
  SequenceSettings settings;
  settings.least_draws = settings.draws = 300;
  settings.threads = 1;
  const Solved one = solve_by_drawing(problem, settings);
  settings.threads = 4;
  const Solved four = solve_by_drawing(problem, settings);
  EXPECT_EQ(one.marginals, four.marginals);
  settings.seed = 2;
  EXPECT_NE(one.marginals, solve_by_drawing(problem, settings).marginals);
}

TEST(Sampler, far_apart_modes_in_a_chain_mix) {
  // Each of ten units in a row is early or late, nothing between: the whole chain must be able to change over.
  Problem problem = flat_problem(200, 10);
  for (std::uint32_t u = 0; u < 10; ++u) {
    problem.tables[u] = flat_table(200, 0, 40);
    for (std::size_t t = 160; t < 200; ++t) problem.tables[u].like[0][t] = 1;
    if (u > 0) problem.below[u] = {u - 1};
  }
  SequenceSettings settings;
  settings.draws = 2000;
  const Solved found = solve_by_drawing(problem, settings);
  EXPECT_TRUE(found.drawing.converged);
  const auto exact = exact_marginals(problem);
  for (std::size_t u = 0; u < 10; ++u) EXPECT_NEAR(mean_year(found.marginals[u]), mean_year(exact[u]), 6);
}

TEST(Sampler, likelihoods_at_odds_beyond_the_range_of_doubles_are_still_drawn) {
  // Three units in a row, each as good as sure to be early while the one below it is as good as sure to be late.
  Problem problem = flat_problem(100, 3);
  for (std::uint32_t u = 0; u < 3; ++u) {
    for (std::size_t t = 0; t < 100; ++t) problem.tables[u].like[0][t] = 1e-250;
    problem.tables[u].like[0][90 - 30 * u] = 1;
    if (u > 0) problem.below[u] = {u - 1};
  }
  SequenceSettings settings;
  settings.draws = settings.least_draws = 200;
  const Solved found = solve_by_drawing(problem, settings);
  for (std::size_t u = 0; u < 3; ++u) {
    double sum = 0;
    for (const double value : years_of(found.marginals[u])) sum += value;
    EXPECT_NEAR(sum, 1, 1e-9);
  }
}

TEST(Sampler, five_hundred_in_a_chain_and_five_hundred_unrelated_converge) {
  for (const bool chain : {true, false}) {
    Problem problem = flat_problem(400, 500);
    for (std::uint32_t u = 0; u < 500; ++u) {
      problem.tables[u] = flat_table(400, 40 + u / 4, 140 + u / 4);
      if (chain && u > 0) problem.below[u] = {u - 1};
    }
    SequenceSettings settings;
    settings.draws = 4000;
    settings.threads = 2;
    const Solved found = solve_by_drawing(in_one_stretch(problem), settings);
    EXPECT_TRUE(found.drawing.converged) << "R-hat " << found.drawing.worst_rhat << " effective "
                                         << found.drawing.least_effective << " of " << found.drawing.worst;
  }
}

TEST(Sampler, a_long_row_squeezed_into_few_years_converges) {
  // Each of 500 may lie in 100 years that overlap with those of its neighbours: ends and row must move together.
  Problem problem = flat_problem(200, 500);
  for (std::uint32_t u = 0; u < 500; ++u) {
    for (std::size_t t = 0; t < 200; ++t) {
      const double off = (static_cast<double>(t) - 60 - u / 6.0) / 20;
      problem.tables[u].like[0][t] = std::exp(-off * off / 2);
    }
    if (u > 0) problem.below[u] = {u - 1};
  }
  SequenceSettings settings;
  settings.draws = 4000;
  settings.threads = 2;
  const Solved found = solve_by_drawing(in_one_stretch(problem), settings);
  EXPECT_TRUE(found.drawing.converged) << "R-hat " << found.drawing.worst_rhat << " effective "
                                       << found.drawing.least_effective << " of " << found.drawing.worst;
}

TEST(Sampler, a_row_without_evidence_that_collapses_into_a_year_still_moves_as_a_whole) {
  // Dates of whole years may be equal, and the weight (d + 1)^-n of a stretch then favours one year by far: the number
  // of rising rows of n in d + 1 years is (n + d)! / n! / d!. Which year, nothing says: the mean is that of all years.
  Problem problem = flat_problem(100, 100);
  for (std::uint32_t u = 1; u < 100; ++u) problem.below[u] = {u - 1};
  SequenceSettings settings;
  settings.draws = 4000;
  settings.threads = 2;
  const Solved found = solve_by_drawing(in_one_stretch(problem), settings);
  EXPECT_TRUE(found.drawing.converged) << found.drawing.worst_rhat << " " << found.drawing.least_effective;
  EXPECT_NEAR(mean_year(found.marginals[50]), 49.5, 5);
}

}  // namespace
}  // namespace sherd::stratigraphy
