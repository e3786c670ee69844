#include "methods/stratigraphy/graph.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>

#include "methods/stratigraphy/example.h"

namespace sherd::stratigraphy {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Relation relation(std::string later, RelationKind kind, std::string earlier) {
  return {std::move(later), std::move(earlier), kind};
}

std::vector<std::string> names_earliest_first(const Graph& graph) {
  std::vector<std::string> out;
  for (const std::uint32_t unit : graph.earliest_first()) out.push_back(graph.contexts()[graph.members(unit).front()]);
  return out;
}

TEST(Graph, orders_the_textbook_section_from_its_natural_to_its_topmost_fill) {
  const Graph graph({}, textbook_section());
  EXPECT_THAT(graph.loops(), IsEmpty());
  const auto order = names_earliest_first(graph);
  ASSERT_EQ(order.size(), 12U);
  EXPECT_EQ(order.front(), "11");
  EXPECT_EQ(order.back(), "7");
  const auto place = [&](const std::string& name) {
    return std::find(order.begin(), order.end(), name) - order.begin();
  };
  for (const Relation& one : textbook_section()) EXPECT_GT(place(one.later), place(one.earlier));
}

TEST(Graph, reports_the_loop_that_the_natural_above_the_topmost_fill_would_make) {
  auto relations = textbook_section();
  relations.push_back(relation("11", RelationKind::above, "7"));
  const auto loops = Graph({}, relations).loops();
  ASSERT_EQ(loops.size(), 1U);
  const Loop& loop = loops.front();
  // The shortest way from 7 down to 11 is 7-6-3-5-1-11; with 11-7 that is six relations.
  EXPECT_EQ(loop.relations.size(), 6U);
  EXPECT_THAT(loop.contexts, testing::UnorderedElementsAre("7", "6", "3", "5", testing::AnyOf("1", "4", "9"), "11"));
  EXPECT_THAT(loop.relations, testing::Contains(RecordedRelation{"11", RelationKind::above, "7"}));
  for (std::size_t i = 0; i < loop.relations.size(); ++i) {
    EXPECT_EQ(loop.relations[i].later, loop.contexts[i]);
    EXPECT_EQ(loop.relations[i].earlier, loop.contexts[(i + 1) % loop.contexts.size()]);
  }
}

TEST(Graph, gives_one_loop_a_knot_the_shortest_first) {
  const auto later = RelationKind::later;
  const Graph graph({}, std::vector{relation("a", later, "b"), relation("b", later, "c"), relation("c", later, "a"),
                                    relation("c", later, "d"), relation("d", later, "a"), relation("x", later, "y"),
                                    relation("y", later, "x"), relation("a", later, "x")});
  const auto loops = graph.loops();
  ASSERT_EQ(loops.size(), 2U);
  EXPECT_THAT(loops[0].contexts, ElementsAre("x", "y"));
  EXPECT_THAT(loops[1].contexts, ElementsAre("a", "b", "c"));
}

TEST(Graph, a_context_above_itself_is_a_loop_of_one) {
  const auto loops = Graph({}, std::vector{relation("a", RelationKind::cuts, "a")}).loops();
  ASSERT_EQ(loops.size(), 1U);
  EXPECT_THAT(loops[0].contexts, ElementsAre("a"));
}

TEST(Graph, a_loop_through_two_names_of_one_context_shows_what_ties_the_names) {
  const Graph graph({}, std::vector{relation("3", RelationKind::same_as, "2"), relation("1", RelationKind::cuts, "2"),
                                    relation("3", RelationKind::above, "1")});
  const auto loops = graph.loops();
  ASSERT_EQ(loops.size(), 1U);
  EXPECT_THAT(loops[0].contexts, ElementsAre("3", "1", "2"));
  EXPECT_THAT(loops[0].relations, ElementsAre(RecordedRelation{"3", RelationKind::above, "1"},
                                              RecordedRelation{"1", RelationKind::cuts, "2"},
                                              RecordedRelation{"3", RelationKind::same_as, "2"}));
}

TEST(Graph, contemporary_is_no_order_and_no_loop) {
  const Graph graph(
      {}, std::vector{relation("a", RelationKind::contemporary, "b"), relation("b", RelationKind::above, "a")});
  EXPECT_THAT(graph.loops(), IsEmpty());
  EXPECT_THAT(names_earliest_first(graph), ElementsAre("a", "b"));
}

TEST(Graph, a_loop_is_found_exactly_where_a_context_reaches_itself) {
  EXPECT_TRUE(rc::check([] {
    constexpr std::size_t kContexts = 7;
    const auto pairs = *rc::gen::container<std::vector<std::pair<std::size_t, std::size_t>>>(
        rc::gen::pair(rc::gen::inRange<std::size_t>(0, kContexts), rc::gen::inRange<std::size_t>(0, kContexts)));
    std::vector<std::string> names;
    for (std::size_t i = 0; i < kContexts; ++i) names.push_back(std::to_string(i));
    std::vector<Relation> relations;
    std::array<std::array<bool, kContexts>, kContexts> reaches{};
    for (const auto& [a, b] : pairs) {
      relations.push_back(relation(names[a], RelationKind::later, names[b]));
      reaches[a][b] = true;
    }
    for (std::size_t k = 0; k < kContexts; ++k) {
      for (std::size_t i = 0; i < kContexts; ++i) {
        for (std::size_t j = 0; j < kContexts; ++j) reaches[i][j] = reaches[i][j] || (reaches[i][k] && reaches[k][j]);
      }
    }
    const Graph graph(names, relations);
    const auto looped = graph.looped();
    bool any = false;
    for (std::size_t i = 0; i < kContexts; ++i) {
      RC_ASSERT(looped[graph.unit_of(i)] == reaches[i][i]);
      any = any || reaches[i][i];
    }
    RC_ASSERT(graph.loops().empty() != any);
    std::size_t left_out = 0;
    for (const bool one : looped) left_out += one ? 1 : 0;
    RC_ASSERT(graph.earliest_first().size() + left_out == kContexts);
  }));
}

TEST(Graph, the_loop_of_a_knot_is_as_short_as_any_in_it) {
  EXPECT_TRUE(rc::check([] {
    constexpr std::size_t kContexts = 8;
    constexpr std::size_t kFar = 1000;
    const auto pairs = *rc::gen::container<std::vector<std::pair<std::size_t, std::size_t>>>(
        rc::gen::pair(rc::gen::inRange<std::size_t>(0, kContexts), rc::gen::inRange<std::size_t>(0, kContexts)));
    std::vector<std::string> names;
    for (std::size_t i = 0; i < kContexts; ++i) names.push_back(std::to_string(i));
    std::vector<Relation> relations;
    std::vector<std::vector<std::size_t>> steps(kContexts, std::vector<std::size_t>(kContexts, kFar));
    for (const auto& [a, b] : pairs) {
      relations.push_back(relation(names[a], RelationKind::later, names[b]));
      steps[a][b] = 1;
    }
    for (std::size_t k = 0; k < kContexts; ++k) {
      for (std::size_t i = 0; i < kContexts; ++i) {
        for (std::size_t j = 0; j < kContexts; ++j) steps[i][j] = std::min(steps[i][j], steps[i][k] + steps[k][j]);
      }
    }
    for (const Loop& loop : Graph(names, relations).loops()) {
      const std::size_t member = std::stoul(loop.contexts.front());
      std::size_t shortest = kFar;
      for (std::size_t i = 0; i < kContexts; ++i) {
        const bool same_knot = i == member || (steps[i][member] < kFar && steps[member][i] < kFar);
        if (same_knot) shortest = std::min(shortest, steps[i][i]);
      }
      RC_ASSERT(loop.relations.size() == shortest);
    }
  }));
}

}  // namespace
}  // namespace sherd::stratigraphy
