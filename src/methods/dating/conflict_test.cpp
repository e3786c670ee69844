#include "methods/dating/conflict.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <bit>

namespace sherd::dating {
namespace {

using testing::ElementsAre;
using testing::UnorderedElementsAre;
using Sets = std::vector<std::vector<std::size_t>>;

YearSet from_to(std::int64_t from, std::int64_t to) { return {{Year{from}, Year{to}}}; }

TEST(SmallestDrops, of_two_that_exclude_each_other_either_may_go) {
  EXPECT_THAT(smallest_drops({from_to(1700, 1750), from_to(1800, 1850)}),
              UnorderedElementsAre(ElementsAre(0u), ElementsAre(1u)));
}

TEST(SmallestDrops, the_one_that_stands_against_two_goes) {
  EXPECT_THAT(smallest_drops({from_to(1700, 1750), from_to(1800, 1850), from_to(1820, 1900)}),
              ElementsAre(ElementsAre(0u)));
}

TEST(SmallestDrops, nothing_goes_where_a_year_is_common) {
  EXPECT_EQ(smallest_drops({from_to(1700, 1750), from_to(1750, 1850)}), Sets{{}});
  EXPECT_EQ(smallest_drops({}), Sets{{}});
}

TEST(SmallestDrops, open_ends_count) {
  const YearSet law{{Year{1891}, {}}}, end{{{}, Year{1820}}};
  EXPECT_THAT(smallest_drops({law, end}), UnorderedElementsAre(ElementsAre(0u), ElementsAre(1u)));
}

/// By trying every subset over every year.
Sets by_force(const std::vector<YearSet>& allowed, std::int64_t first, std::int64_t last) {
  Sets found;
  int smallest = static_cast<int>(allowed.size()) + 1;
  for (unsigned subset = 0; subset < 1U << allowed.size(); ++subset) {
    bool any = false;
    for (std::int64_t year = first; year <= last && !any; ++year) {
      any = true;
      for (std::size_t i = 0; i < allowed.size(); ++i)
        any = any && ((subset >> i & 1U) != 0 || has_year(allowed[i], Year{year}));
    }
    if (!any || std::popcount(subset) > smallest) continue;
    if (std::popcount(subset) < smallest) found.clear();
    smallest = std::popcount(subset);
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < allowed.size(); ++i) {
      if ((subset >> i & 1U) != 0) places.push_back(i);
    }
    found.push_back(places);
  }
  std::sort(found.begin(), found.end());
  return found;
}

TEST(SmallestDrops, are_those_of_a_search_through_all_subsets) {
  EXPECT_TRUE(rc::check([] {
    std::vector<YearSet> allowed;
    const int n = *rc::gen::inRange(1, 8);
    for (int i = 0; i < n; ++i) {
      const std::int64_t from = *rc::gen::inRange<std::int64_t>(0, 40);
      const std::int64_t length = *rc::gen::inRange<std::int64_t>(0, 12);
      YearSet set = from_to(from, from + length);
      if (*rc::gen::inRange(0, 4) == 0) set = united_years({set[0], {Year{from + 20}, Year{from + 24}}});
      if (*rc::gen::inRange(0, 6) == 0) set.front().earliest.reset();
      allowed.push_back(set);
    }
    RC_ASSERT(smallest_drops(allowed) == by_force(allowed, -5, 80));
  }));
}

}  // namespace
}  // namespace sherd::dating
