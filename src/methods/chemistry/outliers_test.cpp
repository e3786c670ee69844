#include "methods/chemistry/outliers.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "base/random.h"
#include "methods/chemistry/testing.h"

namespace sherd::chemistry {
namespace {

Outliers of(const Composition& table, Transform transform = Transform::log10) {
  const auto prepared = prepare(table, {.transform = transform});
  EXPECT_TRUE(prepared);
  const auto out = outliers(*prepared, 0.05);
  EXPECT_TRUE(out);
  return *out;
}

TEST(Outliers, points_at_the_three_known_slips_of_the_kilns) {
  const Outliers found = of(kilns(kAllKilns, {}));
  // Besides them one sherd only, GC2, which is poor in all of clay, potash and titanium.
  std::vector<std::string> cells;
  for (const OddCell& cell : found.cells) {
    if (cell.id == "GC2") continue;
    cells.push_back(cell.id + " " + cell.part);
    EXPECT_LT(cell.p_adjusted, 0.01);
  }
  EXPECT_EQ(cells, (std::vector<std::string>{"GA4 TiO2", "C14 K2O", "C13 MnO"}));
}

TEST(Outliers, says_what_the_others_have) {
  const Outliers found = of(kilns({1}, {}));
  ASSERT_FALSE(found.cells.empty());
  EXPECT_EQ(found.cells[0].id, "GA4");
  EXPECT_LT(found.cells[0].expected[0], 0.93);  // the other TiO2 of kiln 1 lie from 0.75 to 1.01
  EXPECT_GT(found.cells[0].expected[1], 0.93);
  EXPECT_NE(found.cells[0].words.find("GA4 TiO2 0.03 %, where the others have"), std::string::npos);
  ASSERT_FALSE(found.samples.empty());
  EXPECT_EQ(found.samples[0].id, "GA4");
}

TEST(Outliers, rarely_finds_any_where_there_are_none) {
  // Simulation: 200 groups of 15 on 5 parts of log-normal scatter; at 0.05 a group, some 10 of 200 may be called odd.
  int called = 0;
  for (std::uint64_t k = 0; k < 200; ++k) {
    Random random(5, k);
    std::vector<std::string> ids, groups;
    std::vector<double> values;
    for (int i = 0; i < 15; ++i) {
      ids.push_back(std::to_string(i));
      groups.emplace_back("one");
      for (int j = 0; j < 5; ++j) values.push_back(std::exp(0.1 * random.normal()));
    }
    called += of(composition(ids, groups, {"A", "B", "C", "D", "E"}, values)).cells.empty() ? 0 : 1;
  }
  EXPECT_LE(called, 20);
}

TEST(Outliers, finds_a_planted_slip_of_a_digit) {
  Random random(9);
  std::vector<std::string> ids;
  std::vector<double> values;
  for (int i = 0; i < 20; ++i) {
    ids.push_back(std::to_string(i));
    for (int j = 0; j < 4; ++j) values.push_back(10 * std::exp(0.1 * random.normal()));
  }
  values[4 * 7 + 2] /= 10;
  const Outliers found = of(composition(ids, {}, {"A", "B", "C", "D"}, values));
  ASSERT_FALSE(found.cells.empty());
  EXPECT_EQ(found.cells[0].id, "7");
  EXPECT_EQ(found.cells[0].part, "C");
}

TEST(Outliers, refuses_groups_of_fewer_than_five) {
  const auto prepared = prepare(kilns({3}, {}), {});
  EXPECT_EQ(outliers(*prepared, 0.05).error().code, "groups_too_small");
  EXPECT_EQ(outliers(*prepared, 2).error().code, "bad_level");
}

}  // namespace
}  // namespace sherd::chemistry
