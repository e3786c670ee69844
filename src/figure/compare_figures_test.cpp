#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "figure/axis_dates.h"
#include "figure/battleship.h"
#include "figure/dendrogram.h"
#include "figure/heat_table.h"
#include "figure/join_arcs.h"
#include "figure/testing.h"
#include "figure/xy.h"

/// Figures of assemblages compared.
namespace sherd::figure {
namespace {

std::vector<Element> with_class(const std::string& svg, std::string_view name) {
  std::vector<Element> out;
  for (Element& e : elements_of(svg)) {
    if (e.value("class").starts_with(name)) out.push_back(std::move(e));
  }
  return out;
}
bool has_title(const std::string& svg, std::string_view title) {
  return std::ranges::any_of(elements_of(svg), [&](const Element& e) { return e.name == "title" && e.text == title; });
}
bool says(const std::string& svg, std::string_view words) {
  std::string all;
  for (const Element& e : elements_of(svg)) {
    if (e.name == "text") all += e.text + " ";
  }
  return all.find(words) != std::string::npos;
}
std::string letters(std::size_t i) { return "type " + std::to_string(i + 1); }

XyData four_points() {
  XyData data;
  data.about = {"t", {"Four places."}};
  data.x_title = "Distance (km)";
  data.y_title = "Share (%)";
  data.points = {{"a", 1, 2}, {"b", 4, 8}, {"c", 9, 3}, {"d", 5, 5}};
  return data;
}

TEST(Xy, PointsLieWhereTheirValuesSay) {
  XyData data = four_points();
  data.x_from_zero = data.y_from_zero = true;
  const std::string svg = xy(data, {});
  expect_sound(svg);
  const std::vector<Element> dots = with_class(svg, "f-c1");
  ASSERT_EQ(dots.size(), 4u);
  EXPECT_NEAR(dots[1].number("cx") - dots[0].number("cx"), 3 * (dots[3].number("cx") - dots[1].number("cx")), 0.1);
  EXPECT_GT(dots[0].number("cy"), dots[1].number("cy")) << "more is higher";
}

TEST(Xy, OneScaleForBothAxesKeepsShapes) {
  XyData data = four_points();
  data.same_scale = true;
  const std::vector<Element> dots = with_class(xy(data, {}), "f-c1");
  const double across = (dots[2].number("cx") - dots[0].number("cx")) / 8;
  const double up = (dots[0].number("cy") - dots[1].number("cy")) / 6;
  EXPECT_NEAR(across, up, 0.05);
}

TEST(Xy, LogarithmsGiveEqualStepsToEqualRatios) {
  XyData data = four_points();
  data.points = {{"a", 1, 1}, {"b", 10, 1}, {"c", 100, 1}, {"none", 0, 1}};
  data.x_log = true;
  const std::string svg = xy(data, {});
  expect_sound(svg);
  const std::vector<Element> dots = with_class(svg, "f-c1");
  ASSERT_EQ(dots.size(), 3u) << "0 has no logarithm";
  EXPECT_NEAR(dots[1].number("cx") - dots[0].number("cx"), dots[2].number("cx") - dots[1].number("cx"), 0.02);
}

TEST(Xy, NamesAreNeverOverOneAnotherAndThoseWithoutRoomAreCounted) {
  XyData data = four_points();
  for (int i = 0; i < 60; ++i) data.points.push_back({"name " + std::to_string(i), 5 + 0.001 * i, 5});
  const std::string svg = xy(data, {});
  expect_sound(svg);
  EXPECT_TRUE(says(svg, "names for which there is no room are left out."));
}

TEST(Xy, WhatIsNoNumberIsNotDrawn) {
  XyData data = four_points();
  data.points.push_back({"lost", std::numeric_limits<double>::quiet_NaN(), 1});
  data.points.push_back({"far", std::numeric_limits<double>::infinity(), 1});
  EXPECT_EQ(with_class(xy(data, {}), "f-c1").size(), 4u);
  data.points.clear();
  expect_sound(xy(data, {}));
  EXPECT_TRUE(says(xy(data, {}), "No pottery"));
}

TEST(Xy, RingsBandsAndIntervalsLieOnThePage) {
  XyData data = four_points();
  data.points[0].ring = Ring{1, 2, 3, 1, 30};
  data.points[1].low = 6;
  data.points[1].high = 12;
  XyCurve curve{"curve", {{0, 0}, {5, 6}, {10, 7}}, {0, 4, 5}, {0, 8, 9}};
  curve.data_set = "where=context%3D1";
  data.curves.push_back(curve);
  for (const double width : {60.0, 84.0, 174.0}) expect_sound(xy(data, {width}));
}

HeatTableData table_of(std::size_t rows, std::size_t columns) {
  HeatTableData data;
  data.about = {"t", {}};
  data.title = "Similarity";
  data.rows_word = "contexts";
  data.columns_word = "fabrics";
  data.key_low = "none";
  data.key_high = "all";
  for (std::size_t j = 0; j < columns; ++j) data.columns.push_back({letters(j)});
  for (std::size_t i = 0; i < rows; ++i) {
    data.rows.push_back({"context " + std::to_string(i + 100), std::to_string(i)});
    auto& cells = data.cells.emplace_back();
    for (std::size_t j = 0; j < columns; ++j)
      cells.push_back(
          {static_cast<double>(i + j) / static_cast<double>(rows + columns), std::to_string(i * j), "cell"});
  }
  return data;
}

TEST(HeatTable, TheMoreTheDarker) {
  const std::string svg = heat_table(table_of(2, 4), {kDoubleColumnMm});
  expect_sound(svg);
  std::vector<double> shades;
  for (const Element& e : with_class(svg, "f-mark")) shades.push_back(e.number("fill-opacity"));
  ASSERT_GE(shades.size(), 8u);
  EXPECT_TRUE(std::is_sorted(shades.end() - 3, shades.end()));
}

TEST(HeatTable, FewerThanExpectedIsHatchedAndInAnotherColour) {
  HeatTableData data = table_of(1, 2);
  data.cells[0][0].shade = -0.8;
  data.two_ways = true;
  const std::string svg = heat_table(data, {});
  EXPECT_FALSE(with_class(svg, "f-terminus").empty());
  EXPECT_FALSE(with_class(svg, "f-halo").empty());
  expect_sound(svg);
}

TEST(HeatTable, WhatDoesNotFitIsToldAndEveryWidthIsSound) {
  for (const auto& [rows, columns] : {std::pair<std::size_t, std::size_t>{1, 1}, {7, 16}, {40, 40}, {400, 90}}) {
    for (const double width : {84.0, 174.0, 400.0}) expect_sound(heat_table(table_of(rows, columns), {width}));
  }
  const std::string large = heat_table(table_of(400, 200), {kDoubleColumnMm});
  EXPECT_TRUE(says(large, "of 400 contexts."));
  EXPECT_TRUE(says(large, "of 200 fabrics."));
  expect_sound(heat_table({{"t", {}}, "", "", "", "", {}, {}, {}, "", ""}, {}));
}

BattleshipData fleet_of(std::size_t rows, std::size_t types) {
  BattleshipData data;
  data.about = {"t", {}};
  data.n_word = "sherds";
  for (std::size_t j = 0; j < types; ++j) data.types.push_back(letters(j));
  for (std::size_t i = 0; i < rows; ++i) {
    BattleshipRow row{"context " + std::to_string(i), std::to_string(100 + i)};
    for (std::size_t j = 0; j < types; ++j) row.percent.push_back(100.0 / static_cast<double>(types));
    data.rows.push_back(std::move(row));
  }
  return data;
}

TEST(Battleship, BarsAreAsWideAsTheirSharesOnOneScale) {
  BattleshipData data = fleet_of(1, 2);
  data.rows[0].percent = {75, 25};
  const std::vector<Element> bars = with_class(battleship(data, {}), "f-mark");
  ASSERT_EQ(bars.size(), 2u);
  EXPECT_NEAR(bars[0].number("width"), 3 * bars[1].number("width"), 0.05);
}

TEST(Battleship, ATypeThatIsMissingInARowHasNoBarThere) {
  BattleshipData data = fleet_of(3, 4);
  data.rows[1].percent = {100, 0, -3, std::numeric_limits<double>::quiet_NaN()};
  data.rows[1].data_sets = {"where=a", "", "", ""};
  const std::string svg = battleship(data, {});
  expect_sound(svg);
  EXPECT_EQ(with_class(svg, "f-mark").size(), 9u);
  EXPECT_TRUE(has_title(svg, "context 1, type 1: 100.0 %"));
}

TEST(Battleship, ManyRowsAndTypesAreCutAndTold) {
  for (const auto& [rows, types] : {std::pair<std::size_t, std::size_t>{1, 1}, {12, 30}, {90, 9}, {300, 80}}) {
    for (const double width : {84.0, 174.0}) expect_sound(battleship(fleet_of(rows, types), {width}));
  }
  EXPECT_TRUE(says(battleship(fleet_of(300, 80), {kDoubleColumnMm}), "of smallest shares are left out"));
  expect_sound(battleship({{"t", {}}, "", "", "", {}, {}}, {}));
}

DendrogramData tree_of(std::size_t leaves) {
  DendrogramData data;
  data.about = {"t", {}};
  data.axis_title = "Distance";
  for (std::size_t i = 0; i < leaves; ++i) data.leaves.push_back({"context " + std::to_string(i), i % 3 + 1});
  std::size_t last = 0;
  for (std::size_t s = 0; s + 1 < leaves; ++s) {
    data.branches.push_back({last, s + 1, 1.0 + static_cast<double>(s)});
    last = leaves + s;
  }
  return data;
}

TEST(Dendrogram, HasABranchAStepAndALeafARow) {
  DendrogramData data = tree_of(3);
  data.cut = 1.5;
  const std::string svg = dendrogram(data, {});
  expect_sound(svg);
  EXPECT_TRUE(has_title(svg, "2 rows joined at 1.00"));
  EXPECT_TRUE(has_title(svg, "3 rows joined at 2.00"));
  EXPECT_TRUE(has_title(svg, "context 2, cluster 3"));
  EXPECT_TRUE(has_title(svg, "cut at 1.50"));
}

TEST(Dendrogram, FoldsTheLowestBranchesOfALargeTree) {
  const std::string svg = dendrogram(tree_of(500), {kDoubleColumnMm});
  expect_sound(svg);
  EXPECT_TRUE(says(svg, "a row may stand for several."));
  EXPECT_TRUE(says(svg, "more"));
}

TEST(Dendrogram, WhatIsNoTreeIsNotDrawn) {
  DendrogramData data = tree_of(4);
  data.branches[0].a = 9;
  expect_sound(dendrogram(data, {}));
  EXPECT_TRUE(says(dendrogram(data, {}), "Nothing to join"));
  expect_sound(dendrogram(tree_of(1), {}));
}

TEST(AxisDates, SquareStandsAtTheGivenYear) {
  AxisDatesData data{{"t", {}},
                     "contexts",
                     "",
                     {{"1", Year{120}, Year{60}, Year{180}, Year{100}}, {"2", Year{-20}, Year{-90}, Year{50}}}};
  const std::string svg = axis_dates(data, {});
  expect_sound(svg);
  EXPECT_TRUE(has_title(svg, "1: 120 (60-180), given 100"));
  EXPECT_TRUE(has_title(svg, "2: 21 BC (91 BC-AD 50)"));
  EXPECT_TRUE(says(svg, "given"));
  data.rows[0].given.reset();
  EXPECT_FALSE(says(axis_dates(data, {}), "given"));
}

TEST(JoinArcs, AreRedAcrossGroupsAndThickerForMoreJoins) {
  JoinArcsData data{{"t", {}}, "contexts", "sherds", "phase", {}, {}};
  for (int i = 0; i < 5; ++i) data.nodes.push_back({std::to_string(100 + i), i < 3 ? "Phase 1" : "Phase 2", "20", i});
  data.arcs = {{0, 1, 1, "one"}, {1, 2, 9, "nine"}, {0, 4, 4, "four"}};
  const std::string svg = join_arcs(data, {});
  expect_sound(svg);
  std::vector<double> widths;
  for (const Element& e : with_class(svg, "f-mark-line")) {
    if (e.name == "path") widths.push_back(e.number("stroke-width"));
  }
  ASSERT_EQ(widths.size(), 2u);
  EXPECT_LT(widths[0], widths[1]);
  EXPECT_TRUE(has_title(svg, "four"));
  expect_sound(join_arcs({{"t", {}}, "", "", "", {}, {}}, {}));
}

TEST(JoinArcs, ManyNodesAreCutAndLinksToThemTold) {
  JoinArcsData data{{"t", {}}, "contexts", "sherds", "phase", {}, {}};
  for (int i = 0; i < 200; ++i) data.nodes.push_back({std::to_string(i), "", "1", 0});
  data.arcs = {{0, 199, 1, "far"}, {0, 1, 1, "near"}};
  const std::string svg = join_arcs(data, {});
  expect_sound(svg);
  EXPECT_TRUE(says(svg, "1 link to rows that are not shown is left out."));
}

}  // namespace
}  // namespace sherd::figure
