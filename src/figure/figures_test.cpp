#include <gtest/gtest.h>

#include <algorithm>
#include <limits>

#include "figure/bars.h"
#include "figure/composition.h"
#include "figure/date_curve.h"
#include "figure/date_strips.h"
#include "figure/dots.h"
#include "figure/ranges.h"
#include "figure/testing.h"

namespace sherd::figure {
namespace {

std::vector<Element> with_class(const std::string& svg, std::string_view name) {
  std::vector<Element> out;
  for (Element& e : elements_of(svg)) {
    if (e.value("class") == name) out.push_back(std::move(e));
  }
  return out;
}
bool says(const std::string& svg, std::string_view words) {
  std::string all;  // texts of one figure, so that a note broken into lines is found
  for (const Element& e : elements_of(svg)) {
    if (e.name == "text") all += e.text + " ";
  }
  return all.find(words) != std::string::npos;
}
bool has_title(const std::string& svg, std::string_view title) {
  return std::ranges::any_of(elements_of(svg), [&](const Element& e) { return e.name == "title" && e.text == title; });
}

EstimatesData of_values(std::vector<Estimate> rows) {
  return {{"t", {}}, "Weight", "g", 0, "fabrics", "sherds", "95 % intervals.", std::move(rows)};
}

TEST(Bars, AreAsLongAsTheirValues) {
  const std::vector<Element> marks = with_class(
      bars(of_values({{"a", 100, {}, {}, {}, ""}, {"b", 50, {}, {}, {}, ""}, {"c", 25, {}, {}, {}, ""}}), {}),
      "f-mark");
  ASSERT_EQ(marks.size(), 3u);
  EXPECT_NEAR(marks[0].number("width"), 2 * marks[1].number("width"), 0.02);
  EXPECT_NEAR(marks[0].number("width"), 4 * marks[2].number("width"), 0.04);
  EXPECT_EQ(marks[0].value("x"), marks[2].value("x"));
}

TEST(Bars, AMissingValueIsSaidInWordsAndNeverDrawnAsZero) {
  for (const std::optional<double> value :
       {std::optional<double>(), std::optional(std::numeric_limits<double>::quiet_NaN())}) {
    const std::string svg = bars(of_values({{"a", 3, {}, {}, {}, ""}, {"b", value, {}, {}, {}, ""}}), {});
    EXPECT_EQ(with_class(svg, "f-mark").size(), 1u);
    EXPECT_TRUE(says(svg, "not recorded"));
    EXPECT_TRUE(has_title(svg, "b: not recorded"));
  }
}

TEST(Bars, TheTitleOfAMarkTellsValueIntervalAndN) {
  const std::string svg = bars(of_values({{"grey-1", 1234, 1100, 1390, 245, "fabric=grey-1"}}), {});
  EXPECT_TRUE(has_title(svg, "grey-1: 1,234 g (1,100 to 1,390 g), n 245 sherds"));
  EXPECT_EQ(with_class(svg, "f-item").front().value("data-set"), "fabric=grey-1");
  EXPECT_TRUE(says(svg, "95 % intervals."));
}

TEST(Bars, ANegativeValueReachesBackFromZero) {
  const std::vector<Element> marks =
      with_class(bars(of_values({{"a", 10, {}, {}, {}, ""}, {"b", -5, {}, {}, {}, ""}}), {}), "f-mark");
  EXPECT_NEAR(marks[1].number("x") + marks[1].number("width"), marks[0].number("x"), 0.02);
}

TEST(Bars, SayHowManyRowsWereLeftOutAndGoOnOnTheNextPage) {
  std::vector<Estimate> rows;
  for (int i = 0; i < 100; ++i) rows.push_back({"f" + std::to_string(i), 100 - i, {}, {}, {}, ""});
  const EstimatesData data = of_values(rows);
  Page page{kSingleColumnMm, 100, 0};
  std::size_t drawn = 0, pages = 0;
  while (page.first_row < rows.size()) {
    const std::size_t next = next_row_of_bars(data, page);
    ASSERT_GT(next, page.first_row);
    const std::string svg = bars(data, page);
    const std::size_t here = with_class(svg, "f-mark").size();
    EXPECT_EQ(here, next - page.first_row);
    EXPECT_LE(elements_of(svg).front().number("height"), 100);
    const std::string shown = std::to_string(page.first_row + 1) + " to " + std::to_string(next) +
                              " of 100; the other " + std::to_string(100 - here) + " are";
    EXPECT_TRUE(says(svg, shown)) << shown;
    drawn += here;
    ++pages;
    page.first_row = next;
  }
  EXPECT_EQ(drawn, 100u);
  EXPECT_GT(pages, 4u);
}

TEST(Figures, SayInWordsThatThereIsNothing) {
  EXPECT_TRUE(says(bars(of_values({}), {}), "No pottery"));
  EXPECT_TRUE(says(dots({of_values({}), {}}, {}), "No pottery"));
  EXPECT_TRUE(says(date_strips({{"t", {}}, "", "", {}}, {}), "No pottery"));
  EXPECT_TRUE(says(ranges({{"t", {}}, "", {}}, {}), "No pottery"));
  EXPECT_TRUE(says(composition({{"t", {}}, "", "", "", "", {}, {}}, {}), "No pottery"));
  EXPECT_TRUE(says(date_curve({{"t", {"All is undated."}}, "Sherds", "sherds", {}}, {}), "All is undated."));
}

TEST(Dots, TheAxisStartsWhereTheDataSays) {
  const std::string svg = dots({of_values({{"a", 1000, {}, {}, {}, ""}, {"b", 1010, {}, {}, {}, ""}}), {}}, {});
  const std::vector<Element> marks = with_class(svg, "f-mark");
  ASSERT_EQ(marks.size(), 2u);
  EXPECT_GT(marks[1].number("cx") - marks[0].number("cx"), 200);  // 20 mm apart, which bars from zero would hide
}

TEST(Dots, TheReferenceHasItsValueBesideIt) {
  EXPECT_TRUE(says(dots({of_values({{"a", 10, {}, {}, {}, ""}}), Reference{"whole site", 12}}, {}), "whole site 12 g"));
}

TEST(DateCurve, TheAxisSaysTheWidthOfABinWhereAllAreEqual) {
  const DateCurveData data{
      {"t", {}}, "Sherds", "sherds", {{"", {}, "", {{Year{101}, Year{125}, 4, "y"}, {Year{126}, Year{150}, 8, "y"}}}}};
  const std::string svg = date_curve(data, {});
  EXPECT_TRUE(says(svg, "Sherds per 25 years"));
  EXPECT_TRUE(has_title(svg, "101-125: 4.00 sherds"));
}

TEST(DateCurve, UnequalBinsAreDrawnByTheirAmountInTenYears) {
  const DateCurveData data{
      {"t", {}}, "Sherds", "sherds", {{"", {}, "", {{Year{101}, Year{200}, 10, ""}, {Year{201}, Year{250}, 5, ""}}}}};
  const std::string svg = date_curve(data, {});
  EXPECT_TRUE(says(svg, "Sherds per 10 years"));
  const std::string d = with_class(svg, "f-mark").front().value("d");
  // One sherd in ten years in either: the two bins make one flat top, whose four corners have one height.
  const std::string top = d.substr(d.find(" L") + 2);
  const std::string y = top.substr(top.find(' ') + 1, top.find(" L") - top.find(' ') - 1);
  std::size_t corners = 0;
  for (std::size_t at = d.find(" " + y); at != std::string::npos; at = d.find(" " + y, at + 1)) ++corners;
  EXPECT_EQ(corners, 4u) << d;
}

TEST(DateStrips, TheHatchedBoxSpansTheRangeWithBothItsYears) {
  const DateStripsData data{{"t", {}},
                            "contexts",
                            "sherds",
                            {{"1", "", {Year{100}, Year{199}}, false, {}, false, {}, "", {}, "context=1"},
                             {"2", "", {Year{200}, Year{299}}, false, {}, false, {}, "", {}, "context=2"}}};
  const std::vector<Element> boxes = with_class(date_strips(data, {}), "f-plate f-mark-line");
  ASSERT_EQ(boxes.size(), 3u);  // the first is the legend's
  EXPECT_NEAR(boxes[1].number("width"), boxes[2].number("width"), 0.02);
  EXPECT_NEAR(boxes[1].number("x") + boxes[1].number("width"), boxes[2].number("x"), 0.02);
}

TEST(DateStrips, ACarriedTerminusIsHollowAndSaidSo) {
  DateStripsData data{{"t", {}}, "contexts", "sherds", {{"1049", "", {}, false, Year{1325}, true, {}, "", 112, ""}}};
  std::string svg = date_strips(data, {});
  EXPECT_EQ(with_class(svg, "f-hollow f-terminus-line").size(), 2u);  // row and legend
  EXPECT_TRUE(has_title(svg, "1049: terminus post quem 1325, carried; n 112 sherds"));
  EXPECT_TRUE(says(svg, "carried from an earlier context"));
  data.rows[0].terminus_carried = false;
  svg = date_strips(data, {});
  EXPECT_EQ(with_class(svg, "f-terminus f-terminus-line").size(), 2u);
  EXPECT_FALSE(says(svg, "carried from an earlier context"));
}

TEST(DateStrips, TheDateInSequenceLiesSolidBeneathWhatThePotterySays) {
  DateStripsData data{
      {"t", {}}, "contexts", "sherds", {{"7", "", {Year{1600}, Year{1700}}, false, {}, false, {}, "", 3, ""}}};
  EXPECT_TRUE(with_class(date_strips(data, {}), "f-mark").empty());
  data.rows[0].sequence = {Year{1640}, Year{1660}};
  const std::string svg = date_strips(data, {});
  const std::vector<Element> bars = with_class(svg, "f-mark");
  const std::vector<Element> hatched = with_class(svg, "f-plate f-mark-line");
  ASSERT_EQ(bars.size(), 2u);  // the first is the legend's
  EXPECT_GT(bars[1].number("y"), hatched.back().number("y") + hatched.back().number("height"));
  EXPECT_NEAR(bars[1].number("width") / hatched.back().number("width"), 21.0 / 101, 0.01);
  EXPECT_TRUE(has_title(svg, "7: by its own pottery 1600-1700; in sequence 1640-1660 (95 %); n 3 sherds"));
  EXPECT_TRUE(says(svg, "in sequence, 95 %"));
}

// Labels may reach back over the names, which made them leave the page where the names are empty.
TEST(DateStrips, TheLabelsOfTheAxisStayOnThePageWhereNamesAreEmpty) {
  const DateStripsData data{
      {"t", {}}, "contexts", "sherds", {{"", "", {Year{-682}, Year{-680}}, false, {}, false, {}, "", {}, ""}}};
  expect_sound(date_strips(data, {}));
}

TEST(DateStrips, AContextWithoutADateSaysWhy) {
  const DateStripsData data{{"t", {}},
                            "contexts",
                            "sherds",
                            {{"1030", "", {}, false, {}, false, {}, "mixed deposit", {}, ""},
                             {"1031", "", {}, false, {}, false, {}, "", {}, ""}}};
  const std::string svg = date_strips(data, {});
  EXPECT_TRUE(says(svg, "mixed deposit") && says(svg, "undated"));
}

TEST(Ranges, AnOpenEndIsABrokenBarWithAnArrowhead) {
  const RangesData data{
      {"t", {}}, "wares", {{"a", "", {Year{100}, Year{200}}, "", ""}, {"b", "", {Year{150}, {}}, "", ""}}};
  const std::string svg = ranges(data, {});
  const std::vector<Element> marks = with_class(svg, "f-mark");
  EXPECT_EQ(std::ranges::count(marks, "path", &Element::name), 1);
  EXPECT_EQ(std::ranges::count(marks, "rect", &Element::name), 1 + 4);
  EXPECT_TRUE(says(svg, "150 or later"));
  EXPECT_EQ(svg.find("radient"), std::string::npos);
}

CompositionData of_categories(std::size_t n) {
  CompositionData data{{"t", {}}, "Share of weight", "sherds", "phases", "fabrics", {}, {{"1", {}, 10, {}}}};
  for (std::size_t i = 0; i < n; ++i) {
    data.categories.push_back("fabric-" + std::to_string(i + 1));
    data.groups[0].amounts.push_back(static_cast<double>(10 + i));
  }
  return data;
}

double width_of_parts(const std::string& svg) {
  double sum = 0;
  const std::vector<Element> elements = elements_of(svg);
  for (std::size_t i = 0; i < elements.size(); ++i) {
    if (elements[i].value("class") != "f-item") continue;
    sum += elements[i + 3].number("width") + 3;  // the area behind the title, and the seam
  }
  return sum;
}

TEST(Composition, TheSharesOfAGroupFillTheBar) {
  const std::string three = composition(of_categories(3), {kDoubleColumnMm}),
                    seven = composition(of_categories(7), {kDoubleColumnMm});
  EXPECT_GT(width_of_parts(three), 1500);
  EXPECT_NEAR(width_of_parts(three), width_of_parts(seven), 0.1);
}

TEST(Composition, BeyondEightCategoriesTheSmallestAreOtherAndNamed) {
  const std::string svg = composition(of_categories(11), {kDoubleColumnMm});
  EXPECT_TRUE(says(svg, "Other: 3 fabrics of smaller sums: fabric-1, fabric-2, fabric-3."));
  EXPECT_EQ(with_class(svg, "f-other f-other-line").size(), 1u);
  EXPECT_EQ(svg.find("f-c9"), std::string::npos);
  EXPECT_TRUE(has_title(svg, "1, other: 20 % of 165 (share of weight)"));  // 10 + 11 + 12 of 165
}

TEST(Composition, NeedsNoLegendWhereEveryNameHasRoomInTheFirstBar) {
  EXPECT_EQ(with_class(composition(of_categories(3), {kDoubleColumnMm}), "f-c1").size(), 1u);
  EXPECT_EQ(with_class(composition(of_categories(8), {kSingleColumnMm}), "f-c1").size(), 2u);
}

TEST(Composition, AGroupWithoutPotterySaysSo) {
  CompositionData data = of_categories(2);
  data.groups.push_back({"2", {0, 0}, 0, {}});
  EXPECT_TRUE(says(composition(data, {}), "No pottery"));
}

}  // namespace
}  // namespace sherd::figure
