#include "methods/stratigraphy/chain_filter.h"

#include <gtest/gtest.h>

#include <map>
#include <utility>
#include <vector>

#include "base/random.h"

namespace sherd::stratigraphy {
namespace {

constexpr std::size_t kYears = 9;

/// Uneven likelihoods over three durations; a chain of three units, the one in the middle with limits of its own.
std::vector<Table> tables() {
  std::vector<Table> out;
  for (std::size_t which = 0; which < 3; ++which) {
    Table table{{0, 1, 3}, std::vector<std::vector<double>>(3, std::vector<double>(kYears))};
    for (std::size_t d = 0; d < 3; ++d) {
      for (std::size_t t = 0; t < kYears; ++t)
        table.like[d][t] = 1.0 / static_cast<double>(1 + (5 * t + 3 * which + 7 * d * which + 2 * d) % 11);
    }
    out.push_back(std::move(table));
  }
  return out;
}

std::vector<Link> links(const std::vector<Table>& tables) {
  return {{&tables[0], 0, 8}, {&tables[1], 1, 7}, {&tables[2], 0, 8}};
}

/// The weight of every state of the chain that begins in `from` or later and is complete in `to` or earlier, by trying
/// them all. Key: the completions, then the places of the durations.
std::map<std::vector<int>, double> try_all(const std::vector<Link>& links, int from, int to) {
  std::map<std::vector<int>, double> out;
  const auto add = [&](auto&& self, std::vector<int> completed, std::vector<int> duration, int earliest,
                       double weight) -> void {
    const std::size_t i = completed.size();
    if (i == links.size()) {
      completed.insert(completed.end(), duration.begin(), duration.end());
      out[completed] = weight;
      return;
    }
    completed.push_back(0);
    duration.push_back(0);
    for (int d = 0; d < 3; ++d) {
      const auto open = static_cast<int>(links[i].table->durations[static_cast<std::size_t>(d)]);
      for (int t = std::max({earliest, links[i].from, from}) + open; t <= std::min(links[i].to, to); ++t) {
        completed.back() = t;
        duration.back() = d;
        self(self, completed, duration, t,
             weight * links[i].table->like[static_cast<std::size_t>(d)][static_cast<std::size_t>(t)]);
      }
    }
  };
  add(add, {}, {}, 0, 1);
  return out;
}

double sum(const std::map<std::vector<int>, double>& states) {
  double out = 0;
  for (const auto& [state, weight] : states) out += weight;
  return out;
}

TEST(ChainFilter, shares_on_either_side_agree_with_trying_every_state) {
  const std::vector<Table> all = tables();
  const std::vector<Link> chain = links(all);
  const double whole = sum(try_all(chain, 0, 8));
  ChainFilter<double> latest;
  ChainFilter<double> earliest;
  ASSERT_TRUE(latest.filter(chain, kYears, Towards::latest));
  ASSERT_TRUE(earliest.filter(chain, kYears, Towards::earliest));
  for (int year = 0; year < 9; ++year) {
    EXPECT_NEAR(latest.share(year), sum(try_all(chain, 0, year)) / whole, 1e-12) << year;
    EXPECT_NEAR(earliest.share(year), sum(try_all(chain, year, 8)) / whole, 1e-12) << year;
  }
}

TEST(ChainFilter, draws_within_a_bound_are_as_frequent_as_their_weight_from_either_side) {
  constexpr int kDraws = 200'000;
  const std::vector<Table> all = tables();
  const std::vector<Link> chain = links(all);
  for (const Towards towards : {Towards::latest, Towards::earliest}) {
    const int bound = towards == Towards::latest ? 6 : 2;
    const auto exact = towards == Towards::latest ? try_all(chain, 0, bound) : try_all(chain, bound, 8);
    ChainFilter<double> filter;
    ASSERT_TRUE(filter.filter(chain, kYears, towards));
    std::map<std::vector<int>, double> found;
    Random random(1, 2);
    std::vector<Drawn> drawn;
    for (int i = 0; i < kDraws; ++i) {
      ASSERT_TRUE(filter.draw(bound, random, drawn));
      std::vector<int> state;
      for (const Drawn& one : drawn) state.push_back(one.completed);
      for (const Drawn& one : drawn) state.push_back(static_cast<int>(one.duration));
      found[state] += 1.0 / kDraws;
    }
    for (const auto& [state, share] : found) ASSERT_TRUE(exact.contains(state));
    const double whole = sum(exact);
    for (const auto& [state, weight] : exact) EXPECT_NEAR(found[state], weight / whole, 0.0025);
  }
}

TEST(ChainFilter, says_when_nothing_is_left) {
  const std::vector<Table> all = tables();
  ChainFilter<double> filter;
  EXPECT_FALSE(filter.filter(std::vector<Link>{{&all[0], 5, 8}, {&all[1], 0, 4}}, kYears));
  EXPECT_FALSE(filter.filter(std::vector<Link>{{&all[0], 5, 4}}, kYears));
}

}  // namespace
}  // namespace sherd::stratigraphy
