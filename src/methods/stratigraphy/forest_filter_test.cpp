#include "methods/stratigraphy/forest_filter.h"

#include <gtest/gtest.h>

#include <map>
#include <utility>
#include <vector>

#include "base/random.h"

namespace sherd::stratigraphy {
namespace {

constexpr std::size_t kYears = 9;

/// Uneven likelihoods over three durations.
std::vector<Table> tables() {
  std::vector<Table> out;
  for (std::size_t which = 0; which < 4; ++which) {
    Table table{{0, 1, 3}, std::vector<std::vector<double>>(3, std::vector<double>(kYears))};
    for (std::size_t d = 0; d < 3; ++d) {
      for (std::size_t t = 0; t < kYears; ++t)
        table.like[d][t] = 1.0 / static_cast<double>(1 + (5 * t + 3 * which + 7 * d * which + 2 * d) % 11);
    }
    out.push_back(std::move(table));
  }
  return out;
}

/// A root with one unit below it and one above, and one more above the unit below: it bends. The root is bound on the
/// given side.
std::vector<Knot> tree(const std::vector<Table>& tables, Bound bound) {
  return {{{&tables[0], 0, 8}, kNoUnit, bound},
          {{&tables[1], 1, 7}, 0, Bound::later},
          {{&tables[2], 0, 8}, 0, Bound::earlier},
          {{&tables[3], 0, 6}, 1, Bound::earlier}};
}
std::vector<Knot> chain(const std::vector<Table>& tables, Bound bound) {
  const Bound onward = bound == Bound::later ? Bound::later : Bound::earlier;
  return {{{&tables[0], 0, 8}, kNoUnit, bound}, {{&tables[1], 1, 7}, 0, onward}, {{&tables[2], 0, 8}, 1, onward}};
}

/// Completions, then the places of the durations.
using State = std::vector<int>;

/// The weight of every state of a forest whose roots keep to a bound, by trying them all.
class EveryState {
 public:
  EveryState(const std::vector<Knot>& knots, int bound) : knots_(knots), bound_(bound) { add({}, {}, 1); }
  double sum() const {
    double out = 0;
    for (const auto& [state, weight] : weights) out += weight;
    return out;
  }
  std::map<State, double> weights;

 private:
  int open(std::size_t i, int d) const {
    return static_cast<int>(knots_[i].link.table->durations[static_cast<std::size_t>(d)]);
  }

  bool keeps_to_bound(std::size_t i, int completed, int d, const State& others, const State& durations) const {
    const Knot& knot = knots_[i];
    if (knot.bound == Bound::none) return true;
    const bool root = knot.parent == kNoUnit;
    const int parent_completed = root ? bound_ : others[knot.parent];
    const int parent_began = root ? bound_ : parent_completed - open(knot.parent, durations[knot.parent]);
    return knot.bound == Bound::later ? completed <= parent_began : completed - open(i, d) >= parent_completed;
  }

  void add(const State& completed, const State& durations, double weight) {
    const std::size_t i = completed.size();
    if (i == knots_.size()) {
      State both = completed;
      both.insert(both.end(), durations.begin(), durations.end());
      weights[both] = weight;
      return;
    }
    const Link& link = knots_[i].link;
    for (int d = 0; d < 3; ++d) {
      for (int t = link.from + open(i, d); t <= link.to; ++t) {
        if (!keeps_to_bound(i, t, d, completed, durations)) continue;
        State next = completed;
        State next_durations = durations;
        next.push_back(t);
        next_durations.push_back(d);
        add(next, next_durations, weight * link.table->like[static_cast<std::size_t>(d)][static_cast<std::size_t>(t)]);
      }
    }
  }

  const std::vector<Knot>& knots_;
  int bound_;
};

TEST(ForestFilter, shares_on_either_side_of_a_boundary_agree_with_trying_every_state) {
  const std::vector<Table> all = tables();
  for (const auto& make : {tree, chain}) {
    for (const Bound bound : {Bound::later, Bound::earlier}) {
      const std::vector<Knot> knots = make(all, bound);
      const double whole = EveryState(knots, bound == Bound::later ? 8 : 0).sum();
      ForestFilter<double> filter;
      ASSERT_TRUE(filter.filter(knots));
      for (int year = 0; year < 9; ++year)
        EXPECT_NEAR(filter.share(0, year), EveryState(knots, year).sum() / whole, 1e-12) << year;
    }
  }
}

void expect_draws_like_weights(const std::vector<Knot>& knots, int bound) {
  constexpr int kDraws = 200'000;
  const EveryState exact(knots, bound);
  ForestFilter<double> filter;
  ASSERT_TRUE(filter.filter(knots));
  std::map<State, double> found;
  Random random(1, 2);
  std::vector<Drawn> drawn;
  for (int i = 0; i < kDraws; ++i) {
    ASSERT_TRUE(filter.draw(bound, random, drawn));
    State state;
    for (const Drawn& one : drawn) state.push_back(one.completed);
    for (const Drawn& one : drawn) state.push_back(static_cast<int>(one.duration));
    found[state] += 1.0 / kDraws;
  }
  for (const auto& [state, share] : found) ASSERT_TRUE(exact.weights.contains(state));
  const double whole = exact.sum();
  for (const auto& [state, weight] : exact.weights) EXPECT_NEAR(found[state], weight / whole, 0.0025);
}

TEST(ForestFilter, draws_are_as_frequent_as_their_weight_whichever_side_is_bound) {
  const std::vector<Table> all = tables();
  for (const auto& make : {tree, chain}) {
    expect_draws_like_weights(make(all, Bound::later), 6);
    expect_draws_like_weights(make(all, Bound::earlier), 2);
    expect_draws_like_weights(make(all, Bound::none), 0);
  }
}

TEST(ForestFilter, trees_of_one_forest_know_nothing_of_each_other) {
  const std::vector<Table> all = tables();
  expect_draws_like_weights({{{&all[0], 0, 4}, kNoUnit, Bound::none},
                             {{&all[1], 1, 7}, kNoUnit, Bound::later},
                             {{&all[2], 2, 8}, 0, Bound::earlier}},
                            5);
}

TEST(ForestFilter, says_when_nothing_is_left) {
  const std::vector<Table> all = tables();
  ForestFilter<double> filter;
  EXPECT_FALSE(
      filter.filter(std::vector<Knot>{{{&all[1], 0, 4}, kNoUnit, Bound::none}, {{&all[0], 5, 8}, 0, Bound::later}}));
  EXPECT_FALSE(filter.filter(std::vector<Knot>{{{&all[0], 5, 4}, kNoUnit, Bound::none}}));
}

}  // namespace
}  // namespace sherd::stratigraphy
