#include "methods/compare/ordering.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/random.h"
#include "methods/compare/order_search.h"
#include "methods/compare/similarity.h"
#include "methods/compare/testing.h"
#include "methods/statistics/draws.h"

namespace sherd::compare {
namespace {

using ::testing::AnyOf;
using ::testing::ElementsAre;

Ordering of(const CountTable& table, const OrderingSettings& settings = {}) {
  NoProgress progress;
  auto out = ordering(table, settings, progress);
  EXPECT_TRUE(out) << (out ? "" : out.error().message);
  return *out;
}

TEST(Ordering, of_compiegne_is_that_of_its_stratigraphy_with_one_event_of_twenty) {
  // Lacroix 1997: periods 5 (latest) to 1; coefficients calculated with R, the event counted by hand: 4 and 1 are more
  // alike (109.87) than 3 and 1 (104.81).
  for (const bool search : {false, true}) {
    const Ordering out = of(compiegne(), {.search = search});
    EXPECT_THAT(out.order, AnyOf(ElementsAre("5", "4", "3", "2", "1"), ElementsAre("1", "2", "3", "4", "5")));
    EXPECT_EQ(out.anti_robinson_events, 1);
    EXPECT_EQ(out.events_possible, 20);
    EXPECT_EQ(out.method, search ? "search" : "axis");
  }
}

/// Rows in time, in disorder: types come and go.
CountTable in_disorder(std::size_t rows, std::vector<std::string>& truth) {
  std::vector<std::size_t> order(rows);
  std::iota(order.begin(), order.end(), std::size_t{0});
  for (const std::size_t i : order) truth.push_back("r" + std::to_string(i));
  Random random(21);
  statistics::shuffle(order, random);
  CountTable table = table_of({}, letters(10), {});
  for (const std::size_t i : order) {
    table.row_labels.push_back(truth[i]);
    for (std::size_t j = 0; j < 10; ++j) {
      const double off = (static_cast<double>(i) / static_cast<double>(rows - 1) - static_cast<double>(j) / 9.0) / 0.25;
      table.counts.values.push_back(std::round(1000 * std::exp(-off * off / 2)));
    }
  }
  table.counts.rows = rows;
  table.counts.columns = 10;
  return table;
}

TEST(Ordering, finds_the_order_of_types_that_come_and_go) {
  std::vector<std::string> truth;
  const CountTable table = in_disorder(12, truth);
  const Ordering out = of(table);
  std::vector<std::string> turned(truth.rbegin(), truth.rend());
  EXPECT_TRUE(out.tried[0].order == truth || out.tried[0].order == turned);
  EXPECT_LE(out.anti_robinson_events, out.tried[0].events);
  EXPECT_EQ(out.bars.size(), 12U);
  for (const Bars& bars : out.bars)
    EXPECT_NEAR(std::accumulate(bars.percent.begin(), bars.percent.end(), 0.0), 100, 1e-9);
}

TEST(Ordering, battleship_columns_stand_by_where_they_are_most) {
  std::vector<std::string> truth;
  const Ordering out = of(in_disorder(12, truth), {.search = false});
  EXPECT_TRUE(std::ranges::is_sorted(out.types) || std::ranges::is_sorted(out.types, std::greater<>()));
}

TEST(Ordering, of_many_pieces_is_stable_and_of_few_is_not) {
  std::vector<std::string> truth;
  const CountTable many = in_disorder(9, truth);
  CountTable few = many;
  for (double& value : few.counts.values) value = std::ceil(value / 150);
  const Ordering stable = of(many, {.search = false, .resamples = 200});
  const Ordering shaky = of(few, {.search = false, .resamples = 200});
  EXPECT_GT(*stable.agreement, 0.99);
  EXPECT_LT(*shaky.agreement, *stable.agreement);
  ASSERT_EQ(stable.stability.size(), 9U);
  EXPECT_EQ(stable.stability[0].label, stable.tried[0].order[0]);
  EXPECT_EQ(stable.stability[4].median, 5);
  EXPECT_EQ(of(few, {.search = false, .resamples = 200}).agreement, shaky.agreement);
}

statistics::Matrix random_similarity(std::size_t n, std::uint64_t seed) {
  Random random(seed);
  statistics::Matrix s(n, n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < i; ++j) s(i, j) = s(j, i) = std::floor(random.uniform() * 200);
  }
  return s;
}

TEST(OrderSearch, counts_what_looking_at_every_triple_counts) {
  Random random(6);
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    const statistics::Matrix s = random_similarity(15, seed);
    std::vector<std::size_t> start(15);
    std::iota(start.begin(), start.end(), std::size_t{0});
    const SearchedOrder found = search_order(s, start, 5, random, [](std::size_t) { return true; });
    EXPECT_EQ(found.events, anti_robinson_events(s, found.order));
    EXPECT_LE(found.events, anti_robinson_events(s, start));
    std::vector<std::size_t> sorted = found.order;
    std::ranges::sort(sorted);
    EXPECT_EQ(sorted, start);
  }
}

/// The sum of |a/A - b/B| times A and B: whole numbers, so that what is equal is equal.
struct Apart {
  std::int64_t sum = 0, per = 1;
  bool more_than(const Apart& other) const { return sum * other.per > other.sum * per; }
};
Apart apart(std::span<const double> a, std::span<const double> b) {
  const auto total_a = static_cast<std::int64_t>(statistics::sum_of(a));
  const auto total_b = static_cast<std::int64_t>(statistics::sum_of(b));
  Apart out{0, total_a * total_b};
  for (std::size_t k = 0; k < a.size(); ++k)
    out.sum += std::abs(static_cast<std::int64_t>(a[k]) * total_b - static_cast<std::int64_t>(b[k]) * total_a);
  return out;
}

TEST(Ordering, rows_that_are_equally_alike_are_no_event_however_their_shares_round) {
  // Few pieces make thirds, sixths and sevenths, whose sums differ in the last digit by the order of adding.
  Random random(5);
  for (int table_number = 0; table_number < 60; ++table_number) {
    CountTable table = table_of(letters(7), letters(6), {});
    for (std::size_t k = 0; k < 42; ++k) table.counts.values.push_back(1 + random.below(3));
    const Ordering found = of(table, {.search = false, .resamples = 0});
    std::vector<std::size_t> order;
    for (const std::string& label : found.order) order.push_back(static_cast<std::size_t>(label[0] - 'A'));
    std::int64_t events = 0;
    for (std::size_t i = 0; i < 7; ++i) {
      for (std::size_t j = i + 1; j < 7; ++j) {
        for (std::size_t k = j + 1; k < 7; ++k) {
          const auto between = [&](std::size_t a, std::size_t b) {
            return apart(table.counts.row(order[a]), table.counts.row(order[b]));
          };
          events += between(i, j).more_than(between(i, k)) ? 1 : 0;
          events += between(j, k).more_than(between(i, k)) ? 1 : 0;
        }
      }
    }
    EXPECT_EQ(found.anti_robinson_events, events) << table_number;
  }
}

TEST(OrderSearch, comes_to_the_best_of_all_orders_of_seven) {
  Random random(8);
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    const statistics::Matrix s = random_similarity(7, seed);
    const std::vector<std::size_t> start{0, 1, 2, 3, 4, 5, 6};
    EXPECT_EQ(search_order(s, start, 60, random, [](std::size_t) { return true; }).events,
              best_of_all_orders(s, start).events);
  }
}

TEST(Ordering, refuses_rows_that_are_alike_and_too_few_of_them) {
  NoProgress progress;
  EXPECT_EQ(ordering(table_of({"a", "b", "c"}, {"x", "y"}, {1, 2, 2, 4, 3, 6}), {}, progress).error().code, "no_order");
  EXPECT_EQ(ordering(table_of({"a", "b"}, {"x", "y"}, {1, 2, 2, 4}), {}, progress).error().code, "too_few_rows");
}

}  // namespace
}  // namespace sherd::compare
