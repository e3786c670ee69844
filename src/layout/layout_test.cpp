#include "layout/layout.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <set>

#include "layout/testing.h"

namespace sherd::layout {
namespace {

Placed by(Layout& layout, const Drawing& drawing) {
  NoProgress progress;
  auto placed = layout.place(drawing, progress);
  EXPECT_TRUE(placed.has_value()) << placed.error().code << ": " << placed.error().message;
  return placed ? *placed : Placed{};
}
Placed own(const Drawing& drawing) { return by(*own_layout(), drawing); }
Placed by_dot(const Drawing& drawing) {
  SystemProcess processes;
  return by(*dot_layout(processes), drawing);
}

Drawing of(std::size_t nodes, std::vector<Edge> edges) {
  Drawing drawing;
  drawing.nodes.resize(nodes);
  drawing.edges = std::move(edges);
  return drawing;
}

std::string as_text(const Placed& placed) {
  std::string out;
  char line[80];
  const auto add = [&](double a, double b) {
    std::snprintf(line, sizeof line, "%a %a\n", a, b);
    out += line;
  };
  for (const Box& box : placed.nodes) {
    add(box.x, box.y);
    add(box.width, box.height);
  }
  for (const Route& route : placed.edges) {
    for (const Point& p : route.points) add(p.x, p.y);
  }
  for (const PlacedBand& band : placed.bands) add(band.box.y, band.box.bottom());
  return out;
}

// Says "no" after so many steps.
class StopsAfter final : public Progress {
 public:
  explicit StopsAfter(int steps) : left_(steps) {}
  bool step(double, std::string_view) override { return left_-- > 0; }

 private:
  int left_;
};

// Answers as told, without any program.
class ToldProcess final : public ChildProcess {
 public:
  explicit ToldProcess(Result<ChildOutput> answer) : answer_(std::move(answer)) {}
  Result<ChildOutput> run(std::span<const std::string>, std::string_view, const ChildLimit&, Progress&) override {
    return answer_;
  }

 private:
  Result<ChildOutput> answer_;
};

TEST(Layout, AChainStandsUprightAndLaterIsAbove) {
  const Drawing drawing = of(4, {{0, 1}, {1, 2}, {2, 3}});
  for (const Placed& placed : {own(drawing), by_dot(drawing)}) {
    expect_well_placed(drawing, placed);
    for (const Route& route : placed.edges) EXPECT_EQ(route.points.size(), 2u);
    EXPECT_DOUBLE_EQ(placed.nodes[0].x, placed.nodes[3].x);
    EXPECT_TRUE(placed.junctions.empty());
  }
}

TEST(Layout, NothingHasNoSize) {
  const Placed placed = own({});
  EXPECT_EQ(placed.width_mm, 0);
  EXPECT_EQ(by_dot({}).height_mm, 0);
}

TEST(Layout, TheEdgesOfOneNodeShareATreeWithAJunction) {
  const Drawing drawing = of(4, {{0, 1}, {0, 2}, {0, 3}});
  const Placed placed = own(drawing);
  expect_well_placed(drawing, placed);
  EXPECT_EQ(placed.junctions.size(), 1u);  // above the middle one, which hangs straight down
  EXPECT_EQ(crossings_seen(placed), 0u);
}

TEST(Layout, ALongLinePassesBesideTheBoxesOfTheRowsBetween) {
  const Drawing drawing = of(4, {{0, 1}, {1, 2}, {2, 3}, {0, 3}});
  expect_well_placed(drawing, own(drawing));
  expect_well_placed(drawing, by_dot(drawing));
}

TEST(Layout, TwoThatLieOnTheSameTwoDoNotLookJoined) {
  const Drawing drawing = of(4, {{0, 2}, {0, 3}, {1, 2}, {1, 3}});
  expect_well_placed(drawing, own(drawing));
  expect_well_placed(drawing, by_dot(drawing));
}

TEST(Layout, BandsLieInOrderWhateverTheEdgesLeaveOpen) {
  Drawing drawing = of(4, {{0, 1}});
  drawing.nodes[0].band = 2;
  drawing.nodes[1].band = 2;
  drawing.nodes[2].band = 0;
  drawing.nodes[3].band = 1;
  const Placed placed = own(drawing);
  expect_well_placed(drawing, placed);
  EXPECT_LT(placed.nodes[2].y, placed.nodes[3].y);
  EXPECT_LT(placed.nodes[3].y, placed.nodes[0].y);
  ASSERT_EQ(placed.bands.size(), 3u);
  EXPECT_FALSE(placed.edges[0].upward);
}

TEST(Layout, AnEdgeAgainstTheBandsRunsUpwardAndTheBandsStay) {
  Drawing drawing = of(2, {{0, 1}});
  drawing.nodes[0].band = 1;
  drawing.nodes[1].band = 0;
  for (const Placed& placed : {own(drawing), by_dot(drawing)}) {
    expect_well_placed(drawing, placed);
    EXPECT_TRUE(placed.edges[0].upward);
    EXPECT_GT(placed.edges[0].points.front().y, placed.edges[0].points.back().y);
  }
}

TEST(Layout, OneEdgeOfALoopRunsUpward) {
  const Drawing drawing = of(4, {{0, 1}, {1, 2}, {2, 0}, {2, 3}});
  for (const Placed& placed : {own(drawing), by_dot(drawing)}) {
    expect_well_placed(drawing, placed);
    EXPECT_EQ(std::ranges::count(placed.edges, true, &Route::upward), 1);
    EXPECT_FALSE(placed.edges[3].upward);
  }
}

TEST(Layout, ANodeWithoutABandLiesBetweenTheBandsItsEdgesSay) {
  Drawing drawing = of(5, {{0, 1}, {1, 2}, {2, 3}, {3, 4}});
  drawing.nodes[1].band = 0;
  drawing.nodes[3].band = 1;
  const Placed placed = own(drawing);
  expect_well_placed(drawing, placed);
  ASSERT_EQ(placed.bands.size(), 2u);
  EXPECT_LT(placed.nodes[0].bottom(), placed.bands[0].box.y);
  EXPECT_TRUE(placed.nodes[2].y > placed.bands[0].box.bottom() && placed.nodes[2].bottom() < placed.bands[1].box.y);
  EXPECT_GT(placed.nodes[4].y, placed.bands[1].box.bottom());
}

TEST(Layout, ANodeWithoutABandLiesWithinABandWhereBothItsNeighboursDo) {
  Drawing drawing = of(3, {{0, 1}, {1, 2}});
  drawing.nodes[0].band = 0;
  drawing.nodes[2].band = 0;
  const Placed placed = own(drawing);
  expect_well_placed(drawing, placed);
  ASSERT_EQ(placed.bands.size(), 1u);
  EXPECT_LT(placed.nodes[1].bottom(), placed.bands[0].box.bottom());
}

// A path through another lane binds a node without a band, too; otherwise one of its edges would seem to be against
// the bands.
TEST(Layout, ANodeWithoutABandIsBoundThroughOtherLanes) {
  Drawing drawing = of(4, {{0, 1}, {1, 2}, {2, 3}});
  drawing.nodes[0].band = 1;
  drawing.nodes[1].lane = 1;
  drawing.nodes[3].band = 1;
  const Placed placed = own(drawing);
  expect_well_placed(drawing, placed);
  for (const Route& route : placed.edges) EXPECT_FALSE(route.upward);
}

TEST(Layout, LanesStandSideBySide) {
  Drawing drawing = of(6, {{0, 1}, {1, 2}, {3, 4}, {4, 5}, {0, 5}});
  drawing.lane_margin_mm = 20;
  for (std::size_t v = 3; v < 6; ++v) drawing.nodes[v].lane = 7;
  const Placed placed = by_dot(drawing);
  expect_well_placed(drawing, placed);
  ASSERT_EQ(placed.lanes.size(), 2u);
  EXPECT_EQ(placed.lanes[1].lane, 7u);
  EXPECT_LT(placed.nodes[2].right(), placed.lanes[1].left);
  EXPECT_GE(placed.nodes[3].x, placed.lanes[1].left + 20);
}

TEST(Layout, ALinkRunsFromBottomToBottom) {
  Drawing drawing = of(3, {{0, 1}});
  drawing.links = {{1, 2}, {0, 2}};
  const Placed placed = own(drawing);
  expect_well_placed(drawing, placed);
  for (std::size_t l = 0; l < 2; ++l) {
    const std::set<double> ends = {placed.links[l].front().y, placed.links[l].back().y};
    const std::set<double> bottoms = {placed.nodes[drawing.links[l].a].bottom(),
                                      placed.nodes[drawing.links[l].b].bottom()};
    EXPECT_EQ(ends, bottoms);
  }
}

TEST(Layout, ABoxIsAsWideAsTheLinesThatEndAtItNeed) {
  Drawing drawing = of(22, {});
  for (std::uint32_t i = 0; i < 10; ++i) {
    drawing.edges.push_back({i, 20});
    drawing.edges.push_back({i, 21});
  }
  const Placed placed = own(drawing);
  expect_well_placed(drawing, placed);
  EXPECT_GE(placed.nodes[20].width, 30);
}

TEST(Layout, WhatCannotBeDrawnIsRefused) {
  NoProgress progress;
  for (const Drawing& drawing : {of(2, {{0, 0}}), of(2, {{0, 2}}), [] {
                                   Drawing flat = of(1, {});
                                   flat.nodes[0].height_mm = 0;
                                   return flat;
                                 }()}) {
    const auto placed = own_layout()->place(drawing, progress);
    ASSERT_FALSE(placed.has_value());
    EXPECT_EQ(placed.error().code, "bad_drawing");
  }
}

TEST(Layout, TheKeyChangesWithAllThatMatters) {
  const Drawing drawing = of(3, {{0, 1}});
  Drawing wider = drawing, banded = drawing, turned = drawing, linked = drawing, laned = drawing, alone = drawing,
          margined = drawing;
  margined.lane_margin_mm = 5;
  wider.nodes[2].width_mm += 1;
  banded.nodes[2].band = 0;
  turned.edges[0] = {1, 0};
  linked.links = {{1, 2}};
  laned.nodes[1].lane = 1;
  alone.edges[0].alone = true;
  std::set<std::string> keys;
  for (const Drawing& d : {drawing, wider, banded, turned, linked, laned, alone, margined}) keys.insert(layout_key(d));
  EXPECT_EQ(keys.size(), 8u);
  EXPECT_EQ(layout_key(drawing), layout_key(Drawing(drawing)));
}

TEST(Layout, AnyDrawingIsWellPlaced) {
  const bool held = rc::check([](std::uint64_t seed) {
    Random random(seed);
    const MadeUp like{1 + random.below(40), random.below(70),     1 + random.below(3), random.below(6),
                      random.below(3) == 0, random.below(2) == 0, random.below(4),     1 + random.below(20)};
    const Drawing drawing = made_up(like, random);
    const Placed placed = own(drawing);
    expect_well_placed(drawing, placed);
    RC_ASSERT(as_text(own(drawing)) == as_text(placed));
    RC_ASSERT(!::testing::Test::HasFailure());
  });
  EXPECT_TRUE(held);
}

TEST(Layout, AnOrderWithoutLoopsThatKeepsToItsBandsHasNoUpwardEdge) {
  const bool held = rc::check([](std::uint64_t seed) {
    Random random(seed);
    const Drawing drawing = made_up({1 + random.below(60), random.below(90), 1 + random.below(3), random.below(6),
                                     false, random.below(2) == 0, 0, 1 + random.below(20)},
                                    random);
    const Placed placed = own(drawing);
    RC_ASSERT(std::ranges::count(placed.edges, true, &Route::upward) == 0);
  });
  EXPECT_TRUE(held);
}

TEST(DotLayout, AnyDrawingIsWellPlaced) {
  for (std::uint64_t seed = 0; seed < 12; ++seed) {
    Random random(seed);
    const Drawing drawing =
        made_up({60, 80, 1 + random.below(2), random.below(5), seed % 3 == 0, seed % 2 == 0, 2}, random);
    const Placed placed = by_dot(drawing);
    expect_well_placed(drawing, placed);
    EXPECT_TRUE(as_text(by_dot(drawing)) == as_text(placed)) << seed;
  }
}

TEST(DotLayout, AMissingProgramIsAnErrorWithTheWayOut) {
  SystemProcess processes;
  NoProgress progress;
  const auto placed = dot_layout(processes, {"sherd-no-such-dot", {}})->place(of(2, {{0, 1}}), progress);
  ASSERT_FALSE(placed.has_value());
  EXPECT_EQ(placed.error().code, "no_dot");
  EXPECT_EQ(placed.error().message, "The diagram is laid out by dot, which is not installed.");
  EXPECT_EQ(placed.error().hint,
            "Install Graphviz, on Debian with: apt install graphviz. Or have it laid out without dot.");
}

TEST(DotLayout, ASlowProgramIsEnded) {
  SystemProcess processes;
  NoProgress progress;
  Random random(4);
  DotSettings settings;
  settings.limit.time = std::chrono::milliseconds(20);
  const auto placed = dot_layout(processes, settings)->place(made_up({2000, 3000, 1, 8}, random), progress);
  ASSERT_FALSE(placed.has_value());
  EXPECT_EQ(placed.error().code, "dot_too_slow");
  EXPECT_EQ(placed.error().message, "Laying the diagram out took longer than 0.02 s.");
}

TEST(DotLayout, CanBeStopped) {
  SystemProcess processes;
  StopsAfter progress(1);
  Random random(4);
  const auto placed = dot_layout(processes)->place(made_up({2000, 3000, 1, 8}, random), progress);
  ASSERT_FALSE(placed.has_value());
  EXPECT_EQ(placed.error().kind, ErrorKind::stopped);
}

TEST(OwnLayout, CanBeStopped) {
  StopsAfter progress(1);
  Random random(4);
  const auto placed = own_layout()->place(made_up({300, 500, 1, 8}, random), progress);
  ASSERT_FALSE(placed.has_value());
  EXPECT_EQ(placed.error().kind, ErrorKind::stopped);
}

TEST(DotLayout, AnAnswerThatIsNoLayoutIsSaid) {
  NoProgress progress;
  const std::array<std::pair<ChildOutput, std::string>, 4> cases = {
      {{{0, 0, "graph 1 1 1\nnode 0 0.5 0.5 1 1\nstop\n", ""}, "dot could not lay the diagram out: it left a box out."},
       {{0, 0, "node 0 1 1\nnode 1 1 1\nnode 2 1 1\n", ""},
        "dot could not lay the diagram out: it placed a box that is not in the diagram."},
       {{1, 0, "", "Error: out of memory\nmore\n"}, "dot could not lay the diagram out: Error: out of memory"},
       {{0, 11, "", ""}, "dot could not lay the diagram out: signal 11 ended it."}}};
  for (const auto& [output, message] : cases) {
    ToldProcess processes(output);
    const auto placed = dot_layout(processes)->place(of(2, {{0, 1}}), progress);
    ASSERT_FALSE(placed.has_value());
    EXPECT_EQ(placed.error().code, "dot_failed");
    EXPECT_EQ(placed.error().message, message);
  }
}

TEST(LayoutFor, TakesDotUpToThreeThousandNodes) {
  ToldProcess never(fail("no_program", "x is not installed."));
  NoProgress progress;
  EXPECT_EQ(layout_for(of(3000, {}), never)->place(of(3000, {}), progress).error().code, "no_dot");
  EXPECT_TRUE(layout_for(of(3001, {}), never)->place(of(3001, {}), progress).has_value());
  // A ladder whose every rung reaches to the foot: few boxes, but many places where lines pass.
  Drawing ladder = of(200, {});
  for (std::uint32_t i = 0; i + 1 < 200; ++i) ladder.edges.push_back({i, i + 1});
  for (std::uint32_t i = 0; i + 2 < 200; ++i) ladder.edges.push_back({i, 199, true});
  EXPECT_GT(places_in(ladder), kMostPlacesForDot);
  EXPECT_TRUE(layout_for(ladder, never)->place(ladder, progress).has_value());
}

double seconds_of(Layout& layout, const Drawing& drawing) {
  const auto began = std::chrono::steady_clock::now();
  const Placed placed = by(layout, drawing);
  EXPECT_EQ(placed.nodes.size(), drawing.nodes.size());
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
}

TEST(Layout, OurOwnCrossesHardlyMoreThanDot) {
  std::size_t of_own = 0, of_dot = 0;
  for (std::uint64_t seed = 0; seed < 6; ++seed) {
    Random random(seed);
    const Drawing drawing = made_up({120, 160, 1, 5, false, false, 0, 15, 20}, random);
    of_own += crossings_seen(own(drawing));
    of_dot += crossings_seen(by_dot(drawing));
  }
  RecordProperty("own", std::to_string(of_own));
  RecordProperty("dot", std::to_string(of_dot));
  EXPECT_LT(static_cast<double>(of_own), 1.5 * static_cast<double>(of_dot));
}

// Limits wide enough for a build with sanitizers on a busy machine.
TEST(LayoutTimes, TwoThousandNodesByDot) {
  Random random(1);
  SystemProcess processes;
  const double seconds =
      seconds_of(*dot_layout(processes), made_up({2000, 3000, 2, 8, false, false, 10, 40, 0}, random));
  RecordProperty("seconds", std::to_string(seconds));
  EXPECT_LT(seconds, 60);
}

TEST(LayoutTimes, TenThousandNodesByOurOwn) {
  Random random(1);
  const double seconds = seconds_of(*own_layout(), made_up({10000, 15000, 4, 12, false, false, 20, 60}, random));
  RecordProperty("seconds", std::to_string(seconds));
  EXPECT_LT(seconds, 240);
}

}  // namespace
}  // namespace sherd::layout
