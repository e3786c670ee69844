#include "methods/stratigraphy/reduce.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "methods/stratigraphy/example.h"

namespace sherd::stratigraphy {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::UnorderedElementsAre;
using Pairs = std::set<std::pair<std::string, std::string>>;

Relation later(std::string a, std::string b, RelationKind kind = RelationKind::above) {
  return {std::move(a), std::move(b), kind};
}

Pairs pairs_of(const std::vector<RecordedRelation>& relations) {
  Pairs out;
  for (const RecordedRelation& one : relations) out.emplace(one.later, one.earlier);
  return out;
}

/// Everything that follows from the pairs.
Pairs closure(Pairs pairs) {
  for (bool grown = true; grown;) {
    grown = false;
    for (const auto& [a, b] : Pairs(pairs)) {
      for (const auto& [c, d] : Pairs(pairs)) {
        if (b == c && pairs.emplace(a, d).second) grown = true;
      }
    }
  }
  return pairs;
}

TEST(Reduce, leaves_twelve_of_the_twenty_one_relations_of_the_textbook_section) {
  // The section of Wikipedia's "Harris matrix" in an encoding of ours; reduced and closed by hand.
  const Reduction out = reduce(Graph({}, textbook_section()));
  EXPECT_EQ(pairs_of(out.relations), (Pairs{{"7", "8"},
                                            {"8", "6"},
                                            {"6", "3"},
                                            {"3", "2"},
                                            {"2", "12"},
                                            {"12", "5"},
                                            {"5", "1"},
                                            {"5", "4"},
                                            {"1", "9"},
                                            {"4", "10"},
                                            {"9", "11"},
                                            {"10", "11"}}));
  EXPECT_EQ(out.redundant.size(), 9U);
  EXPECT_EQ(closure(pairs_of(out.relations)).size(), 62U);
  EXPECT_THAT(out.repeated, IsEmpty());
  EXPECT_THAT(out.doubtful, IsEmpty());
  EXPECT_THAT(out.loops, IsEmpty());
}

TEST(Reduce, names_the_context_through_which_a_redundant_relation_follows) {
  const Reduction out = reduce(Graph({}, std::vector{later("a", "c"), later("a", "b"), later("b", "c")}));
  ASSERT_EQ(out.redundant.size(), 1U);
  EXPECT_EQ(out.redundant[0].relation, (RecordedRelation{"a", RelationKind::above, "c"}));
  EXPECT_EQ(out.redundant[0].through, "b");
}

TEST(Reduce, lists_what_is_no_order_and_what_is_said_twice) {
  Relation apart = later("d", "a", RelationKind::same_as);
  apart.decision = SameDecision::apart;
  const Reduction out = reduce(Graph(
      {}, std::vector{later("a", "b"), later("a", "b", RelationKind::cuts), later("c", "a", RelationKind::abuts),
                      later("b", "e", RelationKind::contemporary), apart, later("f", "g", RelationKind::same_as)}));
  EXPECT_THAT(out.relations, ElementsAre(RecordedRelation{"a", RelationKind::above, "b"}));
  EXPECT_THAT(out.repeated, ElementsAre(RecordedRelation{"a", RelationKind::cuts, "b"}));
  EXPECT_THAT(out.abutments, ElementsAre(RecordedRelation{"c", RelationKind::abuts, "a"}));
  EXPECT_THAT(out.contemporary, ElementsAre(RecordedRelation{"b", RelationKind::contemporary, "e"}));
  EXPECT_THAT(out.apart, ElementsAre(RecordedRelation{"d", RelationKind::same_as, "a"}));
  ASSERT_EQ(out.same.size(), 1U);
  EXPECT_THAT(out.same[0].contexts, UnorderedElementsAre("f", "g"));
}

TEST(Reduce, an_abutment_orders_where_its_recorder_says_so) {
  Relation abuts = later("c", "a", RelationKind::abuts);
  abuts.orders = Orders::yes;
  const Reduction out = reduce(Graph({}, std::vector{abuts}));
  EXPECT_THAT(out.relations, ElementsAre(RecordedRelation{"c", RelationKind::abuts, "a"}));
  EXPECT_THAT(out.abutments, IsEmpty());
}

TEST(Reduce, the_one_relation_between_two_sequences_that_run_side_by_side_is_doubtful) {
  std::vector<Relation> relations{later("3", "2"), later("2", "1"), later("13", "12"), later("12", "11"),
                                  later("2", "12")};
  Reduction out = reduce(Graph({}, relations));
  ASSERT_EQ(out.doubtful.size(), 1U);
  EXPECT_EQ(out.doubtful[0].relation, (RecordedRelation{"2", RelationKind::above, "12"}));
  EXPECT_EQ(out.doubtful[0].later_side, 3);
  EXPECT_EQ(out.doubtful[0].earlier_side, 3);
  EXPECT_EQ(out.doubtful[0].because,
            "the only relation between the 3 contexts about 2 and the 3 about 12, which both go on above and below it");
  relations.push_back(later("1", "11"));  // a second tie: no longer the only one
  EXPECT_THAT(reduce(Graph({}, relations)).doubtful, IsEmpty());
  // One sequence on top of another is no such thing.
  EXPECT_THAT(
      reduce(Graph({}, std::vector{later("3", "2"), later("2", "1"), later("1", "12"), later("12", "11")})).doubtful,
      IsEmpty());
}

TEST(Reduce, keeps_the_closure_and_nothing_that_follows_from_the_rest) {
  EXPECT_TRUE(rc::check([] {
    constexpr std::size_t kContexts = 9;
    const auto drawn = *rc::gen::container<std::vector<std::pair<std::size_t, std::size_t>>>(
        rc::gen::pair(rc::gen::inRange<std::size_t>(0, kContexts), rc::gen::inRange<std::size_t>(0, kContexts)));
    std::vector<Relation> relations;
    Pairs all;
    for (const auto& [a, b] : drawn) {
      if (a == b) continue;
      relations.push_back(later(std::to_string(std::max(a, b)), std::to_string(std::min(a, b))));
      all.emplace(relations.back().later, relations.back().earlier);
    }
    const Reduction out = reduce(Graph({}, relations));
    const Pairs kept = pairs_of(out.relations);
    RC_ASSERT(closure(kept) == closure(all));
    for (const auto& one : kept) {
      Pairs without = kept;
      without.erase(one);
      RC_ASSERT(!closure(without).contains(one));
    }
    RC_ASSERT(out.relations.size() + out.redundant.size() + out.repeated.size() == relations.size());
    std::ranges::reverse(relations);  // the reduction is unique
    RC_ASSERT(pairs_of(reduce(Graph({}, relations)).relations) == kept);
  }));
}

TEST(Reduce, ten_thousand_contexts_and_thirty_thousand_relations) {
  // Blocks of the closure meet at 4096; steps of 1, 7 and 101 make every longer step redundant.
  constexpr std::size_t kContexts = 10'000;
  std::vector<Relation> relations;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < kContexts; ++i) {
    names.push_back(std::to_string(i));
    for (const std::size_t step : {1U, 7U, 101U}) {
      if (i >= step) relations.push_back(later(std::to_string(i), std::to_string(i - step)));
    }
  }
  const Reduction out = reduce(Graph(names, relations));
  EXPECT_EQ(out.relations.size(), kContexts - 1);
  EXPECT_EQ(out.redundant.size(), relations.size() - out.relations.size());
}

TEST(Loops, the_least_certain_relation_is_to_be_looked_at_first) {
  std::vector<Relation> relations{later("a", "b"), later("b", "c"), later("c", "a")};
  relations[1].certainty = Certainty::possible;
  relations[2].certainty = Certainty::probable;
  const auto loops = Graph({}, relations).loops();
  ASSERT_EQ(loops.size(), 1U);
  EXPECT_EQ(loops[0].look_at.front(), (RecordedRelation{"b", RelationKind::above, "c"}));
  EXPECT_EQ(loops[0].because, "b above c is recorded as possible, the others are more certain");
}

TEST(Loops, of_equally_certain_relations_the_one_that_ends_most_loops_comes_first) {
  // a-b-c-a and a-b-d-a share a-b.
  const auto loops =
      Graph({}, std::vector{later("a", "b"), later("b", "c"), later("c", "a"), later("b", "d"), later("d", "a")})
          .loops();
  ASSERT_EQ(loops.size(), 1U);
  EXPECT_EQ(loops[0].look_at.front(), (RecordedRelation{"a", RelationKind::above, "b"}));
  EXPECT_EQ(loops[0].because, "without a above b there is no loop left among its 4 contexts");
}

TEST(RelationTroubles, are_named_with_the_way_out) {
  Relation apart = later("s1", "s3", RelationKind::same_as);
  apart.decision = SameDecision::apart;
  const std::vector<std::string> contexts{"a", "b", "s1", "s2", "s3"};
  const auto troubles = relation_troubles(
      contexts, std::vector{later("a", "a"), later("a", "x"), later("s1", "s2", RelationKind::same_as),
                            later("s2", "s3", RelationKind::same_as), later("s3", "s1"), apart, later("a", "b"),
                            later("b", "a", RelationKind::cuts)});
  std::vector<std::string> codes;
  for (const RelationTrouble& one : troubles) codes.push_back(one.code);
  EXPECT_THAT(codes, ElementsAre("above_itself", "unknown_context", "same_and_ordered", "same_and_apart", "both_ways"));
  EXPECT_EQ(troubles[0].message, "context a is related to itself: a above a");
  EXPECT_EQ(troubles[1].message, "a above x names context x, which is not in the list of contexts");
  EXPECT_EQ(troubles[2].message, "s3 above s1, but the two are one context: s1 same as s2, s2 same as s3");
  EXPECT_EQ(troubles[4].message, "a above b and b cuts a: each is later than the other");
  EXPECT_EQ(troubles[4].hint, "remove one of the two");
}

}  // namespace
}  // namespace sherd::stratigraphy
