#include "figure/stratigraphy_diagram.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <set>

#include "base/random.h"
#include "figure/stratigraphy_lines.h"
#include "figure/testing.h"

namespace sherd::figure {
namespace {

layout::Placed place(const StratigraphyFigure& figure) {
  NoProgress progress;
  auto placed = layout::own_layout()->place(drawing_of(figure), progress);
  EXPECT_TRUE(placed.has_value());
  return placed ? *placed : layout::Placed{};
}
std::string drawn(const StratigraphyFigure& figure) { return stratigraphy_diagram(figure, place(figure)); }

StratigraphyFigure figure_of(std::vector<DiagramContext> contexts, std::vector<DiagramRelation> relations) {
  StratigraphyFigure figure;
  figure.about.title = "Stratigraphic diagram";
  figure.contexts = std::move(contexts);
  figure.relations = std::move(relations);
  return figure;
}

DiagramContext context(std::string label, std::string type = "layer", std::optional<std::size_t> phase = {}) {
  DiagramContext c;
  c.data_set = "context=" + label;
  c.label = std::move(label);
  c.type = std::move(type);
  c.phase = phase;
  return c;
}

std::vector<Element> with_class(const std::string& svg, std::string_view name) {
  std::vector<Element> out;
  for (Element& e : elements_of(svg)) {
    if (e.value("class") == name) out.push_back(std::move(e));
  }
  return out;
}
bool says(const std::string& svg, std::string_view words) {
  std::string all;
  for (const Element& e : elements_of(svg)) {
    if (e.name == "text") all += e.text + " ";
  }
  return all.find(words) != std::string::npos;
}
bool has_title(const std::string& svg, std::string_view title) {
  return std::ranges::any_of(elements_of(svg), [&](const Element& e) { return e.name == "title" && e.text == title; });
}
// The box of the context: the first shape of its mark.
Element box_of(const std::string& svg, std::string_view data_set) {
  const std::vector<Element> elements = elements_of(svg);
  for (std::size_t i = 0; i + 3 < elements.size(); ++i) {
    if (elements[i].value("data-set") == data_set) return elements[i + 3];
  }
  ADD_FAILURE() << "no mark of " << data_set;
  return {};
}

TEST(StratigraphyDiagram, LaterStandsAboveEarlier) {
  const std::string svg = drawn(figure_of({context("101"), context("102", "cut")}, {{1, 0, "102 cuts 101"}}));
  expect_sound(svg);
  EXPECT_LT(box_of(svg, "context=102").number("y"), box_of(svg, "context=101").number("y"));
  EXPECT_TRUE(has_title(svg, "102 cuts 101"));
}

TEST(StratigraphyDiagram, ContextsThatAreTheSameShareABoxThatHasRoomForBothNumbers) {
  const std::string svg = drawn(figure_of({context("1002 = 2002 = 3014"), context("3")}, {{0, 1, "1002 above 3"}}));
  expect_sound(svg);
  EXPECT_TRUE(says(svg, "1002 = 2002 = 3014"));
  EXPECT_GT(box_of(svg, "context=1002 = 2002 = 3014").number("width"), box_of(svg, "context=3").number("width"));
}

TEST(StratigraphyDiagram, TypesAreToldByShapeAndWord) {
  StratigraphyFigure figure = figure_of({context("1", "layer"), context("2", "cut"), context("3", "fill"),
                                         context("4", "structure"), context("5", "hearth")},
                                        {});
  const std::string svg = drawn(figure);
  expect_sound(svg);
  for (const char* type : {"layer", "cut", "fill", "structure", "hearth"}) EXPECT_TRUE(says(svg, type)) << type;
  const std::vector<Element> elements = elements_of(svg);
  std::set<std::string> shapes;
  for (std::size_t i = 0; i < elements.size(); ++i) {
    if (!elements[i].value("data-set").starts_with("context=")) continue;
    std::string shape;
    for (std::size_t k = i + 3; k < elements.size() && elements[k].name != "/g"; ++k) {
      if (elements[k].name != "text" && elements[k].name != "/text") {
        shape += elements[k].name + elements[k].value("class") + elements[k].value("height") + " ";
      }
    }
    shapes.insert(shape);
  }
  EXPECT_EQ(shapes.size(), 5u);
}

TEST(StratigraphyDiagram, EveryStripHasTheSameScale) {
  DiagramContext a = context("1"), b = context("1002 = 2002 = 3014");
  a.spot = {Year{100}, Year{199}};
  a.sequence = {Year{300}, Year{399}};
  b.spot = {Year{300}, Year{399}};
  const std::string svg = drawn(figure_of({a, b}, {}));
  expect_sound(svg);
  const std::vector<Element> hatched = with_class(svg, "f-plate f-mark-line"), solid = with_class(svg, "f-mark");
  ASSERT_EQ(hatched.size(), 3u);  // the first is the legend's
  ASSERT_EQ(solid.size(), 2u);
  EXPECT_NEAR(hatched[1].number("width"), hatched[2].number("width"), 0.02);
  EXPECT_NEAR(hatched[1].number("width"), solid[1].number("width"), 0.02);
  EXPECT_NEAR(hatched[1].number("width") * 3, 130, 0.1);  // a third of 13 mm: 100 years of 300
  EXPECT_GT(solid[1].number("y"), hatched[1].number("y") + hatched[1].number("height"));
  EXPECT_TRUE(has_title(svg, "1: layer; by its own pottery 100-199; in sequence 300-399"));
  EXPECT_TRUE(says(svg, "The strip in each box: year AD"));
}

TEST(StratigraphyDiagram, WithoutDatesThereIsNoStripAndNoKeyOfIt) {
  const std::string svg = drawn(figure_of({context("1")}, {}));
  EXPECT_FALSE(says(svg, "The strip in each box"));
  EXPECT_TRUE(has_title(svg, "1: layer; undated"));
}

TEST(StratigraphyDiagram, PhasesAreBandsWithTheirTitlesTheLatestOnTop) {
  StratigraphyFigure figure = figure_of({context("1", "layer", 1), context("2", "layer", 0)}, {});
  figure.phases = {{"B", "Gardens", "", "phase=B"}, {"A", "Ditches", "", "phase=A"}};
  const std::string svg = drawn(figure);
  expect_sound(svg);
  EXPECT_TRUE(says(svg, "Gardens") && says(svg, "Ditches"));
  EXPECT_TRUE(has_title(svg, "phase B: Gardens"));
  EXPECT_LT(box_of(svg, "context=2").number("y"), box_of(svg, "context=1").number("y"));
  EXPECT_LT(box_of(svg, "phase=B").number("y"), box_of(svg, "phase=A").number("y"));
}

TEST(StratigraphyDiagram, AreasStandSideBySideByNameWithTheirOwnPhases) {
  StratigraphyFigure figure = figure_of({context("1", "layer", 0), context("2", "layer", 1)}, {});
  figure.phases = {{"N1", "", "10", "phase=N1"}, {"S1", "", "9", "phase=S1"}};
  const std::string svg = drawn(figure);
  expect_sound(svg);
  EXPECT_TRUE(says(svg, "Area 9") && says(svg, "Area 10"));
  EXPECT_LT(box_of(svg, "context=2").number("x"), box_of(svg, "context=1").number("x"));
  EXPECT_EQ(box_of(svg, "context=2").number("y"), box_of(svg, "context=1").number("y"));
}

TEST(StratigraphyDiagram, ALoopIsRedWithArrowheadsAndNamedUnderneath) {
  StratigraphyFigure figure = figure_of({context("1"), context("2")}, {{0, 1, "1 cuts 2", RelationLook::loop, ""},
                                                                       {1, 0, "2 above 1", RelationLook::loop, ""}});
  figure.loops = {"Loop: 1 cuts 2, 2 above 1."};
  const std::string svg = drawn(figure);
  expect_sound(svg);
  EXPECT_EQ(with_class(svg, "f-terminus-line").size(), 3u);  // the two and the legend's
  EXPECT_TRUE(says(svg, "Loop: 1 cuts 2, 2 above 1."));
  EXPECT_TRUE(has_title(svg, "2 above 1; part of a loop"));
  EXPECT_FALSE(says(svg, "Against the phases"));
}

TEST(StratigraphyDiagram, ARelationAgainstThePhasesIsSaidByName) {
  StratigraphyFigure figure = figure_of({context("1", "layer", 1), context("2", "layer", 0)}, {{0, 1, "1 above 2"}});
  figure.phases = {{"B", "", "", ""}, {"A", "", "", ""}};
  const std::string svg = drawn(figure);
  expect_sound(svg);
  EXPECT_TRUE(says(svg, "Against the phases: 1 above 2."));
  EXPECT_TRUE(has_title(svg, "1 above 2; against the phases"));
}

TEST(StratigraphyDiagram, WhatFollowsFromTheOthersIsDrawnOnlyWhenAskedFor) {
  StratigraphyFigure figure =
      figure_of({context("1"), context("2"), context("3")},
                {{0, 1, "1 above 2"}, {1, 2, "2 above 3"}, {0, 2, "1 above 3", RelationLook::redundant, ""}});
  EXPECT_FALSE(has_title(drawn(figure), "1 above 3; follows from the others"));
  figure.with_redundant = true;
  const std::string svg = drawn(figure);
  expect_sound(svg);
  EXPECT_TRUE(has_title(svg, "1 above 3; follows from the others"));
  EXPECT_TRUE(says(svg, "follows from the others"));
}

TEST(StratigraphyDiagram, ALinkIsDashedAndNoOrder) {
  StratigraphyFigure figure = figure_of({context("1"), context("2")}, {});
  figure.links = {{0, 1, "1 contemporary 2", "link=1,2"}};
  const std::string svg = drawn(figure);
  expect_sound(svg);
  EXPECT_TRUE(has_title(svg, "1 contemporary 2"));
  EXPECT_EQ(box_of(svg, "context=1").number("y"), box_of(svg, "context=2").number("y"));
  const std::string dashes = box_of(svg, "link=1,2").value("d");
  EXPECT_GT(std::ranges::count(dashes, 'M'), 3);
}

TEST(StratigraphyDiagram, ThePageGrowsAndTheTypeStays) {
  StratigraphyFigure figure;
  figure.about.title = "t";
  for (int i = 0; i < 40; ++i) figure.contexts.push_back(context(std::to_string(i)));
  const std::string svg = drawn(figure);
  expect_sound(svg);  // with its sizes of type
  EXPECT_GT(elements_of(svg).front().number("width"), 40 * 15);
}

TEST(StratigraphyDiagram, AStretchThatTwoRelationsShareIsDrawnOnce) {
  SharedInk ink;
  const std::vector<Point> first = {{0, 0}, {0, 4}, {5, 4}, {5, 8}}, second = {{0, 0}, {0, 4}, {9, 4}, {9, 8}};
  const auto of_first = ink.fresh(first), of_second = ink.fresh(second);
  ASSERT_EQ(of_first.size(), 1u);
  EXPECT_EQ(of_first[0].size(), 4u);
  ASSERT_EQ(of_second.size(), 1u);  // from the end of what is shared
  ASSERT_EQ(of_second[0].size(), 3u);
  EXPECT_EQ(of_second[0][0].x, 5);
  EXPECT_EQ(of_second[0][1].x, 9);
  EXPECT_TRUE(ink.fresh(second).empty());
}

TEST(StratigraphyDiagram, TheMarkOfARelationHoldsItsWholeLine) {
  const std::string svg = drawn(figure_of({context("1"), context("2"), context("3"), context("4")},
                                          {{0, 1, "1 above 2", RelationLook::order, "a"},
                                           {1, 2, "2 above 3", RelationLook::order, "b"},
                                           {0, 3, "1 above 4", RelationLook::order, "c"}}));
  const std::vector<Element> elements = elements_of(svg);
  std::size_t whole = 0;
  for (const Element& e : elements) {
    whole += e.name == "path" && e.value("fill") == "none" && !e.attributes.contains("stroke") ? 1U : 0U;
  }
  EXPECT_EQ(whole, 3u);
}

TEST(StratigraphyDiagram, NothingIsSaidInWords) { EXPECT_TRUE(says(drawn(figure_of({}, {})), "No contexts")); }

TEST(StratigraphyDiagram, NumbersThatAreNoContextAreLeftOut) {
  StratigraphyFigure figure = figure_of({context("1", "layer", 9)}, {{0, 0, "1 above 1"}, {0, 5, "1 above ?"}});
  figure.links = {{0, 7, "", ""}};
  const std::string svg = drawn(figure);
  expect_sound(svg);
  EXPECT_FALSE(has_title(svg, "1 above 1"));
}

std::string any_word(Random& random) {
  static const std::vector<std::string> kWords = {"",
                                                  "1002",
                                                  "<b>&\"",
                                                  "\xFF\xFE",
                                                  "tin-glazed, blue painted and more",
                                                  "WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW",
                                                  "\U0001F3FA",
                                                  "cut"};
  return kWords[random.below(static_cast<std::uint32_t>(kWords.size()))];
}
YearRange any_years(Random& random) {
  YearRange range;
  if (random.below(3) > 0) range.earliest = Year{static_cast<std::int64_t>(random.below(3000)) - 900};
  if (random.below(3) > 0) range.latest = Year{range.earliest.value_or(Year{0}).value + random.below(300)};
  return range;
}

TEST(StratigraphyDiagram, OfAnythingIsSound) {
  const bool held = rc::check([](std::uint64_t seed) {
    Random random(seed);
    StratigraphyFigure figure;
    figure.about = {"A diagram", {"Left out: " + any_word(random) + "."}};
    for (std::uint32_t i = random.below(5); i > 0; --i) {
      figure.phases.push_back({any_word(random), any_word(random), random.below(2) == 0 ? "" : "A", "p"});
    }
    const std::uint32_t n = 1 + random.below(14);
    for (std::uint32_t i = 0; i < n; ++i) {
      DiagramContext c = context(any_word(random), any_word(random));
      if (random.below(3) > 0) c.phase = random.below(5);
      if (random.below(3) == 0) c.area = "B";
      c.spot = any_years(random);
      c.sequence = any_years(random);
      if (random.below(2) == 0) c.terminus = c.spot.earliest;
      figure.contexts.push_back(c);
    }
    for (std::uint32_t i = random.below(20); i > 0; --i) {
      figure.relations.push_back(
          {random.below(n), random.below(n), any_word(random), static_cast<RelationLook>(random.below(3)), "r"});
    }
    if (random.below(3) == 0) figure.links.push_back({random.below(n), random.below(n), any_word(random), "l"});
    if (random.below(3) == 0) figure.loops = {any_word(random)};
    figure.with_redundant = random.below(2) == 0;
    expect_sound(drawn(figure));
    RC_ASSERT(!::testing::Test::HasFailure());
  });
  EXPECT_TRUE(held);
}

}  // namespace
}  // namespace sherd::figure
