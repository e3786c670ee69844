#include "figure/plate.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "figure/plate_rows.h"
#include "figure/testing.h"

namespace sherd::figure {
namespace {

// A pot whose size follows its number.
VesselDrawing pot(std::size_t i) {
  const double r = 40 + static_cast<double>(i * 37 % 90), h = 50 + static_cast<double>(i * 53 % 160);
  VesselDrawing d;
  d.number = std::to_string(i + 1);
  d.title = "No " + d.number;
  d.rim_percent = 10;
  d.section = {"", {{0, 0}, {r * 0.6, 0}, {r, h}}, {{0, 7}, {r * 0.6 - 5, 7}, {r - 6, h}, {r, h}}, {}, {}};
  return d;
}
std::vector<VesselDrawing> pots(std::size_t n) {
  std::vector<VesselDrawing> out;
  for (std::size_t i = 0; i < n; ++i) out.push_back(pot(i));
  return out;
}

std::vector<std::size_t> all_shown(const Plates& p) {
  std::vector<std::size_t> out;
  for (const auto& page : p.shown) out.insert(out.end(), page.begin(), page.end());
  return out;
}
/// Tops of the centre lines of a page, which are its rim lines: x, y.
std::vector<Point> rims(const std::string& svg) {
  std::vector<Point> out;
  for (const Element& e : elements_of(svg)) {
    if (e.name == "line" && e.value("x1") == e.value("x2")) out.push_back({e.number("x1") / 10, e.number("y1") / 10});
  }
  return out;
}

TEST(Plates, EveryDrawingIsOnOnePageInItsOrder) {
  const Plates p = plates(pots(40), {});
  std::vector<std::size_t> want(40);
  std::iota(want.begin(), want.end(), 0u);
  EXPECT_EQ(all_shown(p), want);
  EXPECT_TRUE(p.too_large.empty());
  EXPECT_GT(p.pages.size(), 1u);
  for (const std::string& page : p.pages) expect_sound(page);
}

TEST(Plates, APageIsThePrintAreaToTheMillimetre) {
  PlateSettings s;
  s.width_mm = 174;
  s.height_mm = 235;
  for (const std::string& page : plates(pots(20), s).pages) {
    EXPECT_TRUE(page.find("width=\"174.00mm\" height=\"235.00mm\"") != std::string::npos) << page.substr(0, 120);
  }
}

TEST(Plates, RimsOfARowStandOnOneLine) {
  const Plates p = plates(pots(40), {});
  for (const std::string& page : p.pages) {
    std::vector<double> y;
    for (const Point& rim : rims(page)) y.push_back(rim.y);
    std::ranges::sort(y);
    const auto repeated = std::ranges::unique(y, [](double a, double b) { return std::abs(a - b) < 1e-6; });
    const std::size_t lines = y.size() - repeated.size();
    EXPECT_LT(lines, rims(page).size()) << "at least one line holds several rims";
    y.erase(repeated.begin(), repeated.end());
    for (std::size_t i = 1; i < y.size(); ++i) EXPECT_GT(y[i] - y[i - 1], 2) << "no two lines nearly alike";
  }
}

TEST(Plates, DrawingsDoNotTouch) {
  for (const auto& rows :
       packed_rows({{60, 1, 50}, {60, 1, 30}, {30, 1, 20}, {30, 1, 20}, {70, 2, 90}, {20, 1, 10}}, {135, 180, 5, 5})) {
    for (const PlateRow& row : rows) {
      EXPECT_LE(row.width + 5 * static_cast<double>(row.columns.size() - 1), 135 + 1e-6);
    }
  }
}

TEST(Plates, SmallOnesStandBeneathEachOtherBesideATallOne) {
  const std::vector<PlateItem> items{{50, 0, 30}, {50, 0, 30}, {60, 0, 80}};
  const auto pages = packed_rows(items, {135, 100, 5, 5});
  ASSERT_EQ(pages.size(), 1u);
  ASSERT_EQ(pages[0].size(), 1u);
  const auto lines = rim_lines(items, pages[0][0], 5);
  EXPECT_EQ(lines, (std::vector<std::vector<double>>{{0, 35}, {0}}));
}

TEST(Plates, OneMoreDrawingFlowsInAtItsPlace) {
  auto drawings = pots(24);
  const Plates before = plates(drawings, {});
  VesselDrawing extra = pot(90);
  extra.number = "5a";
  drawings.insert(drawings.begin() + 5, extra);
  const Plates after = plates(drawings, {});
  EXPECT_EQ(all_shown(after).size(), all_shown(before).size() + 1);
  EXPECT_NE(after.pages.front().find(">5a<"), std::string::npos);
  for (const std::string& page : after.pages) expect_sound(page);
}

TEST(Plates, TheCaptionCountsOnAndEndsWithTheScale) {
  PlateSettings s;
  s.caption = "Pottery from the pits, nos 1-40";
  s.first_figure = 7;
  const Plates p = plates(pots(40), s);
  EXPECT_NE(p.pages[0].find(">Fig. 7. Pottery from the pits, nos 1-40. Scale 1:4.<"), std::string::npos);
  EXPECT_NE(p.pages[1].find(">Fig. 8. Pottery from the pits, nos 1-40 (continued). Scale 1:4.<"), std::string::npos);
  EXPECT_NE(plates(pots(40), {}).pages[1].find(">Scale 1:4.<"), std::string::npos);
}

TEST(Plates, WhatNoPageHoldsIsToldWithTheScaleThatWouldDo) {
  auto drawings = pots(3);
  drawings[1].section.outer = {{0, 0}, {200, 0}, {380, 300}};
  drawings[1].section.inner = {{0, 9}, {190, 9}, {370, 300}, {380, 300}};
  PlateSettings s;
  const Plates p = plates(drawings, s);
  EXPECT_EQ(p.too_large, std::vector<std::size_t>{1});
  EXPECT_EQ(all_shown(p), (std::vector<std::size_t>{0, 2}));
  s.drawing.scale = p.scale_that_fits;
  EXPECT_EQ(p.scale_that_fits, 6);  // 760 mm on 135 mm
  EXPECT_TRUE(plates(drawings, s).too_large.empty());
}

TEST(Plates, NothingToDrawGivesNoPage) { EXPECT_TRUE(plates({}, {}).pages.empty()); }

// Whatever the sizes: the order stays, nothing leaves the page, columns do not overlap.
TEST(PackedRows, AlwaysFitThePage) {
  rc::check([](std::uint32_t seed) {
    std::vector<PlateItem> items;
    const auto n = static_cast<std::size_t>(*rc::gen::inRange(1, 40));
    for (std::size_t i = 0; i < n; ++i) {
      seed = seed * 1664525u + 1013904223u;
      items.push_back({10 + (seed >> 8) % 125 * 1.0, (seed >> 16) % 4 * 1.0, 6 + (seed >> 20) % 170 * 1.0});
    }
    const PlateRoom room{135, 180, 5, 5};
    std::size_t next = 0;
    for (const auto& page : packed_rows(items, room)) {
      double height = -room.row_gap;
      for (const PlateRow& row : page) {
        height += row.height + room.row_gap;
        RC_ASSERT(row.width + room.gap * static_cast<double>(row.columns.size() - 1) <= room.width + 1e-6);
        const auto lines = rim_lines(items, row, room.row_gap);
        for (std::size_t k = 0; k < row.columns.size(); ++k) {
          double end = -room.row_gap;
          for (std::size_t i = row.columns[k].first; i < row.columns[k].last; ++i) {
            RC_ASSERT(i == next++);
            const double rim = lines[k][i - row.columns[k].first];
            RC_ASSERT(rim - items[i].above >= end + room.row_gap - 1e-6);
            end = rim + items[i].below;
            RC_ASSERT(end <= row.height + 1e-6);
          }
        }
      }
      RC_ASSERT(height <= room.height + 1e-6);
    }
    RC_ASSERT(next == items.size());
  });
}

}  // namespace
}  // namespace sherd::figure
