#include "figure/side_by_side.h"

#include <algorithm>
#include <cmath>

#include "figure/testing.h"

namespace sherd::figure {
namespace {

SideBySideData wares(std::size_t rows) {
  SideBySideData data;
  data.about = {"Four measures", {"All: 10 sherds."}};
  data.title = "Share of all (%), the amount beneath";
  data.unit = "%";
  data.rows_word = "wares";
  data.columns = {"Sherds", "Weight (g)", "Vessels", "EVE"};
  for (std::size_t i = 0; i < rows; ++i) {
    const double share = 100.0 / static_cast<double>(i + 1);
    data.rows.push_back({"ware " + std::to_string(i + 1),
                         {{share, "1,510"}, {share / 2, "22,829.5"}, {std::nullopt, ""}, {share / 4, "0.50"}},
                         "where=ware%3D" + std::to_string(i + 1)});
  }
  return data;
}

std::vector<Element> bars_of(const std::string& svg) {
  std::vector<Element> out;
  for (Element& e : elements_of(svg)) {
    if (e.name == "rect" && e.value("class") == "f-mark") out.push_back(std::move(e));
  }
  return out;
}

TEST(SideBySide, BarsOfAllColumnsShareOneScale) {
  const std::string svg = side_by_side(wares(3), {.width_mm = 174});
  expect_sound(svg);
  const auto bars = bars_of(svg);
  ASSERT_EQ(bars.size(), 9U);  // three of the four columns are recorded
  const auto longest = std::ranges::max(bars, {}, [](const Element& e) { return e.number("width"); });
  const auto half = std::ranges::count_if(
      bars, [&](const Element& e) { return std::abs(e.number("width") - longest.number("width") / 2) < 0.2; });
  EXPECT_EQ(half, 2) << "half of 100 % by weight, and 50 % of the second ware by sherds";
}

TEST(SideBySide, WhatIsNotRecordedIsSaidAndHasNoBar) {
  const std::string svg = side_by_side(wares(1), {.width_mm = 174});
  EXPECT_NE(svg.find("ware 1, Vessels: not recorded"), std::string::npos);
  EXPECT_NE(svg.find("ware 1, Sherds: 100.0 % (1,510)"), std::string::npos);
}

TEST(SideBySide, NarrowPagesLongNamesAndManyRowsStaySound) {
  SideBySideData data = wares(60);
  data.rows[0].name = "a sandy grey ware with burnished lattice, of the coast, second variety";
  expect_sound(side_by_side(data, {.width_mm = 84}));
  const std::string cut = side_by_side(data, {.width_mm = 174, .max_height_mm = 120});
  expect_sound(cut);
  EXPECT_NE(cut.find("of 60"), std::string::npos);
}

TEST(SideBySide, NothingToDrawSaysSo) { EXPECT_NE(side_by_side(wares(0), {}).find("No pottery"), std::string::npos); }

}  // namespace
}  // namespace sherd::figure
