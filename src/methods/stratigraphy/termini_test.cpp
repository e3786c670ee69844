#include "methods/stratigraphy/termini.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <map>

#include "methods/stratigraphy/example.h"

namespace sherd::stratigraphy {
namespace {

using testing::IsEmpty;

ContextTermini own(std::string context, std::optional<std::int64_t> year, std::optional<Deposit> deposit = {}) {
  ContextTermini out{.context = std::move(context), .termini = {}, .deposit = deposit};
  if (year) {
    out.termini.own = dating::Terminus{.year = Year{*year},
                                       .record = "r" + out.context,
                                       .records = {},
                                       .because = "record r" + out.context + ": grey-1"};
  }
  return out;
}

Relation above(std::string later, std::string earlier, RelationKind kind = RelationKind::above) {
  return {std::move(later), std::move(earlier), kind};
}

std::map<std::string, EffectiveTerminus> by_context(const CarriedTermini& carried) {
  std::map<std::string, EffectiveTerminus> out;
  for (const EffectiveTerminus& one : carried.contexts) out[one.context] = one;
  return out;
}

TEST(CarryTermini, carries_through_the_textbook_section) {
  // Own termini are ours; the effective ones follow from the rule "latest of its own and of all earlier contexts".
  const std::vector<ContextTermini> contexts{own("11", {}), own("9", 100), own("10", 120), own("1", 110),
                                             own("4", 90),  own("5", {}),  own("2", 150),  own("3", 130),
                                             own("6", 140), own("7", 145), own("12", {}),  own("8", {})};
  const auto result = by_context(carry_termini(contexts, textbook_section()));
  const std::map<std::string, std::int64_t> expected{{"9", 100}, {"10", 120}, {"1", 110}, {"4", 120},
                                                     {"5", 120}, {"12", 120}, {"2", 150}, {"3", 150},
                                                     {"6", 150}, {"8", 150},  {"7", 150}};
  for (const auto& [context, year] : expected) EXPECT_EQ(result.at(context).year, Year{year}) << context;
  EXPECT_FALSE(result.at("11").year);
  for (const auto& [context, one] : result) {
    const bool older_than_beneath = context == "3" || context == "4" || context == "6" || context == "7";
    EXPECT_EQ(one.own_is_earlier, older_than_beneath) << context;
  }
  EXPECT_EQ(result.at("6").from, "2");
  EXPECT_EQ(result.at("6").record, "r2");
  EXPECT_EQ(result.at("6").because, "carried up from 2: record r2: grey-1");
  EXPECT_EQ(result.at("7").because, "carried up from 2 by way of 6: record r2: grey-1");
  EXPECT_EQ(result.at("2").because, "record r2: grey-1");
  EXPECT_EQ(result.at("2").via, "");
}

TEST(CarryTermini, a_mixed_context_neither_receives_nor_passes_on_and_says_so) {
  const std::vector<ContextTermini> contexts{own("1", 100), own("2", 1850, Deposit::mixed), own("3", 80)};
  const auto carried = carry_termini(contexts, std::vector{above("3", "2"), above("2", "1")});
  const auto result = by_context(carried);
  EXPECT_EQ(result.at("2").year, Year{1850});
  EXPECT_TRUE(result.at("2").mixed);
  EXPECT_EQ(result.at("3").year, Year{80});
  ASSERT_EQ(carried.stopped.size(), 2U);
  EXPECT_EQ(carried.stopped[0].context, "2");
  EXPECT_EQ(carried.stopped[0].year, Year{1850});
  EXPECT_EQ(carried.stopped[0].reason, "mixed deposit");
  EXPECT_EQ(carried.stopped[1].from, "1");
  EXPECT_EQ(carried.stopped[1].record, "r1");
}

TEST(CarryTermini, an_intrusive_line_carries_nothing_and_says_so) {
  std::vector<ContextTermini> contexts{own("1", 100), own("2", 80)};
  contexts[0].termini.intrusive = dating::Terminus{.year = Year{1900}, .record = "r9", .records = {}, .because = {}};
  const auto carried = carry_termini(contexts, std::vector{above("2", "1")});
  EXPECT_EQ(by_context(carried).at("2").year, Year{100});
  ASSERT_EQ(carried.stopped.size(), 1U);
  EXPECT_EQ(carried.stopped[0].record, "r9");
  EXPECT_EQ(carried.stopped[0].reason, "judged intrusive");
}

TEST(CarryTermini, a_loop_stops_what_it_touches_and_marks_what_lies_above) {
  const std::vector<ContextTermini> contexts{own("1", 300), own("2", 100), own("3", 200), own("4", 50), own("5", 60)};
  const auto carried = carry_termini(
      contexts, std::vector{above("2", "1"), above("2", "3"), above("3", "2"), above("4", "3"), above("5", "4")});
  const auto result = by_context(carried);
  EXPECT_TRUE(result.at("2").in_loop);
  EXPECT_EQ(result.at("2").year, Year{100});
  EXPECT_FALSE(result.at("4").in_loop);
  EXPECT_TRUE(result.at("4").incomplete);
  EXPECT_TRUE(result.at("5").incomplete);
  EXPECT_EQ(result.at("5").year, Year{60});
  EXPECT_FALSE(result.at("1").incomplete);
  ASSERT_EQ(carried.loops.size(), 1U);
  EXPECT_EQ(carried.loops[0].contexts.size(), 2U);
  ASSERT_EQ(carried.stopped.size(), 3U);  // the two of the loop, and what 1 would have brought into it
  for (const Stopped& one : carried.stopped) EXPECT_EQ(one.reason, "loop");
}

TEST(CarryTermini, contexts_that_are_the_same_share_what_they_have) {
  const std::vector<ContextTermini> contexts{own("1", 100), own("2", 200), own("3", 50)};
  const auto result = by_context(carry_termini(
      contexts, std::vector{above("1", "2", RelationKind::same_as), above("3", "1", RelationKind::cuts)}));
  EXPECT_EQ(result.at("1").year, Year{200});
  EXPECT_EQ(result.at("1").because, "from 2, the same context: record r2: grey-1");
  EXPECT_TRUE(result.at("1").own_is_earlier);
  EXPECT_EQ(result.at("3").year, Year{200});
  EXPECT_EQ(result.at("3").via, "1");
}

TEST(CarryTermini, passes_through_contexts_without_pottery_and_ones_only_relations_name) {
  const std::vector<ContextTermini> contexts{own("1", 100), own("3", {})};
  const auto carried = carry_termini(contexts, std::vector{above("3", "2"), above("2", "1")});
  EXPECT_EQ(by_context(carried).at("3").year, Year{100});
  EXPECT_EQ(by_context(carried).at("3").via, "2");
  EXPECT_EQ(carried.contexts.size(), 2U);
}

TEST(CarryTermini, equal_years_stay_with_the_context_itself_else_go_by_name) {
  const std::vector<ContextTermini> contexts{own("10", 100), own("9", 100), own("11", 100), own("12", {})};
  const auto result = by_context(
      carry_termini(contexts, std::vector{above("11", "10"), above("11", "9"), above("12", "10"), above("12", "9")}));
  EXPECT_EQ(result.at("11").from, "11");
  EXPECT_EQ(result.at("12").from, "9");
}

TEST(CarryTermini, agrees_with_the_latest_over_everything_that_can_be_reached) {
  EXPECT_TRUE(rc::check([] {
    const auto n = *rc::gen::inRange<std::size_t>(1, 12);
    std::vector<ContextTermini> contexts;
    for (std::size_t i = 0; i < n; ++i) {
      const auto year = *rc::gen::maybe(rc::gen::inRange<std::int64_t>(-50, 50));
      contexts.push_back(own(std::to_string(i), year ? std::optional(*year) : std::nullopt));
    }
    std::vector<std::vector<bool>> reaches(n, std::vector<bool>(n));
    std::vector<Relation> relations;
    const auto pairs = *rc::gen::container<std::vector<std::pair<std::size_t, std::size_t>>>(
        rc::gen::pair(rc::gen::inRange<std::size_t>(0, n), rc::gen::inRange<std::size_t>(0, n)));
    for (const auto& [a, b] : pairs) {
      if (a == b) continue;
      relations.push_back(above(std::to_string(std::max(a, b)), std::to_string(std::min(a, b))));
      reaches[std::max(a, b)][std::min(a, b)] = true;
    }
    for (std::size_t k = 0; k < n; ++k) {
      for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < n; ++j) reaches[i][j] = reaches[i][j] || (reaches[i][k] && reaches[k][j]);
      }
    }
    const auto carried = carry_termini(contexts, relations);
    for (std::size_t i = 0; i < n; ++i) {
      std::optional<Year> latest;
      for (std::size_t j = 0; j < n; ++j) {
        const auto& terminus = contexts[j].termini.own;
        if ((i == j || reaches[i][j]) && terminus && (!latest || *terminus->year > *latest)) latest = terminus->year;
      }
      RC_ASSERT(carried.contexts[i].year == latest);
      RC_ASSERT(!carried.contexts[i].incomplete);
    }
    RC_ASSERT(carried.stopped.empty());
  }));
}

TEST(CarryTermini, runs_on_ten_thousand_contexts_and_on_one_great_loop_of_them) {
  constexpr std::size_t kContexts = 10'000;
  std::vector<ContextTermini> contexts;
  std::vector<Relation> relations;
  for (std::size_t i = 0; i < kContexts; ++i) {
    contexts.push_back(own(std::to_string(i), i == 0 ? std::optional<std::int64_t>(70) : std::nullopt));
    for (const std::size_t step : {1U, 7U, 101U}) {
      if (i >= step) relations.push_back(above(std::to_string(i), std::to_string(i - step)));
    }
  }
  auto carried = carry_termini(contexts, relations);
  EXPECT_EQ(carried.contexts.back().year, Year{70});
  EXPECT_EQ(carried.contexts.back().from, "0");
  EXPECT_THAT(carried.loops, IsEmpty());

  relations.push_back(above("0", std::to_string(kContexts - 1)));
  carried = carry_termini(contexts, relations);
  ASSERT_EQ(carried.loops.size(), 1U);
  // From the last to the first by steps of 101, 7 and 1: 99 x 101 = 9999, and the way back.
  EXPECT_EQ(carried.loops[0].relations.size(), 100U);
  EXPECT_TRUE(carried.contexts.front().in_loop);
}

}  // namespace
}  // namespace sherd::stratigraphy
