#include "methods/dating/telling.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <map>

#include "methods/dating/when_testing.h"

namespace sherd::dating {
namespace {

DatedRow hard(const Keys& keys, std::int64_t from, std::int64_t to) {
  return of_nature(Nature::limit, row(keys, from, to));
}

// By hand: 64 years are 6 bits. A cup narrows to 16 years (4 bits), a bowl to 32 (5 bits); the row that dates the ware
// stands for "neither". 1/3 x 2 + 1/3 x 1 + 1/3 x 0 = 1 bit. A feather edge narrows to 8 years: 1/2 x 3 = 1.5 bits.
TEST(Telling, the_expected_bits_are_those_worked_out_by_hand) {
  const std::vector<DatedRow> rows = {
      hard({{"ware", "w"}}, 1801, 1864), hard({{"ware", "w"}, {"form", "cup"}}, 1801, 1816),
      hard({{"ware", "w"}, {"form", "bowl"}}, 1833, 1864), hard({{"edge", "feather"}}, 1821, 1828)};
  WhenQuestion question = seen({{"ware", "w"}});
  question.shoulder = 0;
  const ObjectDate date = when(rows, question);
  ASSERT_EQ(date.next.size(), 2u);
  EXPECT_EQ(date.next[0].key, "edge");
  EXPECT_NEAR(date.next[0].bits, 1.5, 1e-12);
  EXPECT_EQ(date.next[1].key, "form");
  EXPECT_NEAR(date.next[1].bits, 1.0, 1e-12);
  ASSERT_EQ(date.next[1].answers.size(), 3u);
  std::map<std::string, std::string> said;
  for (const TellingAnswer& answer : date.next[1].answers) {
    EXPECT_NEAR(answer.share, 1.0 / 3, 1e-12);
    said[answer.value] = years(answer.earliest, answer.latest);
  }
  EXPECT_EQ(said["cup"], "1801-1816");
  EXPECT_EQ(said["bowl"], "1833-1864");
  EXPECT_EQ(said[""], "1801-1864");
}

TEST(Telling, an_answer_that_would_leave_no_year_is_not_expected) {
  WhenQuestion question = seen({{"ware", "w"}});
  const ObjectDate date = when({hard({{"ware", "w"}}, 1801, 1864), hard({{"edge", "feather"}}, 1821, 1828),
                                hard({{"edge", "shell"}}, 1900, 1950)},
                               question);
  ASSERT_EQ(date.next.size(), 1u);
  EXPECT_EQ(date.next[0].answers.size(), 2u);
}

TEST(Telling, a_stem_bore_is_asked_of_pipes_alone) {
  const std::vector<DatedRow> rows = {hard({{"ware", "clay pipe"}}, 1600, 1800), hard({{"ware", "dish"}}, 1600, 1800),
                                      hard({{"bore", "7"}}, 1650, 1680)};
  EXPECT_EQ(when(rows, seen({{"ware", "clay pipe"}})).next.size(), 1u);
  EXPECT_TRUE(when(rows, seen({{"ware", "dish"}})).next.empty());
}

TEST(Telling, an_answer_that_only_shoulders_would_allow_is_not_expected) {
  EXPECT_TRUE(
      when({row({{"ware", "w"}}, 1801, 1864), row({{"edge", "e"}}, 1870, 1900)}, seen({{"ware", "w"}})).next.empty());
}

// Rows that name no ware count for a key where a ware of the family is known by it.
TEST(Telling, what_matters_to_the_family_of_the_ware_is_asked_for) {
  const std::vector<DatedRow> rows = {hard({{"ware", "creamware"}}, 1762, 1825),
                                      hard({{"edge", "feather"}}, 1765, 1790), hard({{"form", "amphora"}}, 1770, 1780),
                                      hard({{"mark", "m"}}, 1800, 1810),
                                      hard({{"ware", "pearlware"}, {"edge", "shell"}}, 1785, 1840)};
  const auto asked = [&](std::optional<std::vector<std::string>> family) {
    WhenQuestion question = seen({{"ware", "creamware"}});
    question.family = std::move(family);
    std::vector<std::string> keys;
    for (const Telling& telling : when(rows, question).next) keys.push_back(telling.key);
    return keys;
  };
  EXPECT_THAT(asked(std::nullopt), testing::UnorderedElementsAre("edge", "form", "mark"));
  EXPECT_THAT(asked(std::vector<std::string>{"creamware", "pearlware"}), testing::UnorderedElementsAre("edge", "mark"));
  EXPECT_THAT(asked(std::vector<std::string>{}), testing::UnorderedElementsAre("mark"));
}

TEST(Telling, rows_of_another_ware_are_no_answers) {
  const ObjectDate date = when({hard({{"ware", "w"}}, 1801, 1864), hard({{"ware", "x"}, {"edge", "e"}}, 1801, 1810)},
                               seen({{"ware", "w"}}));
  EXPECT_TRUE(date.next.empty());
}

double bits_of(const std::vector<double>& heights) {
  double sum = 0, bits = 0;
  for (const double height : heights) sum += height;
  for (const double height : heights) bits -= height > 0 ? height / sum * std::log2(height / sum) : 0;
  return sum > 0 ? bits : -1;
}

// Over masks on a few years, apart from everything that the method uses.
TEST(Telling, is_never_negative_and_is_what_counting_gives) {
  EXPECT_TRUE(rc::check([] {
    constexpr int kYears = 24;
    const auto from_to = [] {
      const int from = *rc::gen::inRange(0, kYears);
      return std::pair(from, *rc::gen::inRange(from, kYears));
    };
    const auto ware = from_to();
    std::vector<DatedRow> rows = {hard({{"ware", "w"}}, ware.first, ware.second)};
    std::vector<std::pair<std::string, std::pair<int, int>>> edges;
    const int n = *rc::gen::inRange(1, 6);
    for (int i = 0; i < n; ++i) {
      edges.emplace_back("edge " + std::to_string(*rc::gen::inRange(0, 3)), from_to());
      rows.push_back(hard({{"edge", edges.back().first}}, edges.back().second.first, edges.back().second.second));
    }
    std::vector<double> now(kYears);
    for (int t = 0; t < kYears; ++t) now[static_cast<std::size_t>(t)] = ware.first <= t && t <= ware.second ? 1 : 0;
    std::map<std::string, std::vector<double>> masks;
    std::map<std::string, int> times;
    for (const auto& [edge, range] : edges) {
      auto& mask = masks[edge];
      mask.resize(kYears);
      for (int t = range.first; t <= range.second; ++t) mask[static_cast<std::size_t>(t)] = 1;
      ++times[edge];
    }
    double saved = 0;
    int all = 1;
    for (auto& [edge, mask] : masks) {
      for (int t = 0; t < kYears; ++t) mask[static_cast<std::size_t>(t)] *= now[static_cast<std::size_t>(t)];
      if (bits_of(mask) < 0) continue;
      all += times[edge];
      saved += times[edge] * (bits_of(now) - bits_of(mask));
    }
    WhenQuestion question = seen({{"ware", "w"}});
    question.shoulder = 0;
    const ObjectDate date = when(rows, question);
    const double bits = date.next.empty() ? 0 : date.next[0].bits;
    RC_ASSERT(bits >= 0);
    RC_ASSERT(std::abs(bits - saved / all) < 1e-9);
  }));
}

}  // namespace
}  // namespace sherd::dating
