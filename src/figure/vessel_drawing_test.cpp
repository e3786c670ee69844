#include "figure/vessel_drawing.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "figure/testing.h"
#include "figure/testing_picture.h"
#include "figure/vessel_bands.h"
#include "figure/vessel_shape.h"

// The convention: Nautical Archaeology Society guide (Bowens, Underwater Archaeology, 2nd edition, 173-176); Green,
// Maritime Archaeology, 293-294; the sign of survival after Collett (2008 and later). From memory: the broken rim line,
// black or hatched sections.
namespace sherd::figure {
namespace {

std::vector<OutlinePoint> line(std::initializer_list<std::pair<double, double>> points) {
  std::vector<OutlinePoint> out;
  for (const auto& [r, z] : points) out.push_back({r, z, false});
  return out;
}

// A beaker like a flower pot: 200 mm across at the rim, 120 at the base, 160 high, its wall 8 mm thick.
VesselDrawing pot() {
  VesselDrawing d;
  d.number = "12";
  d.title = "12: jar";
  d.data_set = "piece=12";
  d.section = {"", line({{0, 0}, {60, 0}, {100, 160}}), line({{0, 8}, {54, 8}, {92, 160}, {100, 160}}), {}, {}};
  d.rim_percent = 25;
  return d;
}
DrawingSettings at_scale(double scale) {
  DrawingSettings s;
  s.scale = scale;
  return s;
}

VesselDrawing rim_sherd() {
  VesselDrawing d = pot();
  d.section = {"", line({{90, 120}, {100, 160}}), line({{82, 120}, {92, 160}, {100, 160}}), {}, {}};
  return d;
}

bool says(const std::string& svg, const std::string& words) {
  return std::ranges::any_of(elements_of(svg), [&](const Element& e) { return e.name == "text" && e.text == words; });
}
struct Where {
  double centre = 0, rim = 0;  // of the centre line, of the rim line
};
Where where(const std::string& svg) {
  for (const Element& e : elements_of(svg)) {
    if (e.name == "line" && e.value("x1") == e.value("x2")) return {e.number("x1") / 10, e.number("y1") / 10};
  }
  return {};
}

TEST(VesselDrawing, IsTrueToTheMillimetreAtEveryScale) {
  for (const double scale : {1.0, 2.0, 3.0, 4.0, 5.0, 10.0}) {
    const std::string svg = vessel_drawing(pot(), at_scale(scale));
    expect_sound(svg);
    const Where w = where(svg);
    const Picture picture = Picture::of(svg, 400);
    const Element page = elements_of(svg).front();
    EXPECT_NEAR(picture.width_mm(), page.number("width"), 0.1);
    // Half way down the pot is 160 mm across: the section's outer edge, its inner edge, the far outline.
    const auto level = picture.along_level(w.rim + 80 / scale);
    ASSERT_EQ(level.size(), 3u) << scale;
    EXPECT_NEAR(w.centre - level[0].from, 80 / scale, 0.08) << scale;
    EXPECT_NEAR(w.centre - level[0].to, 72 / scale, 0.08) << scale;
    EXPECT_NEAR(level[1].middle(), w.centre, 0.08) << scale;
    EXPECT_NEAR(level[2].middle() - w.centre, 80 / scale, 0.08) << scale;
    // The rim line is 200 mm long; the far outline's round end adds half its width.
    const auto rim = picture.along_level(w.rim);
    EXPECT_NEAR(rim.back().to - rim.front().from, 200 / scale + 0.175, 0.1) << scale;
    // From the rim line to the base line.
    const auto upright = picture.along_upright(w.centre + 20 / scale);
    EXPECT_NEAR(upright[1].middle() - upright[0].middle(), 160 / scale, 0.1) << scale;
  }
}

TEST(VesselDrawing, HasItsSectionOnTheSideThatIsAskedFor) {
  DrawingSettings s = at_scale(4);
  for (const bool left : {true, false}) {
    s.section_left = left;
    const std::string svg = vessel_drawing(pot(), s);
    const Where w = where(svg);
    const Picture picture = Picture::of(svg);
    EXPECT_EQ(picture.dark(w.centre - 76.0 / 4, w.rim + 20), left);
    EXPECT_EQ(picture.dark(w.centre + 76.0 / 4, w.rim + 20), !left);
  }
}

TEST(VesselDrawing, SectionIsSolidHatchedOrOpen) {
  std::vector<double> share;
  for (const SectionFill fill : {SectionFill::solid, SectionFill::hatched, SectionFill::open}) {
    VesselDrawing d = pot();
    d.fill = fill;
    const std::string svg = vessel_drawing(d, at_scale(1));
    expect_sound(svg);
    const Where w = where(svg);
    const Picture picture = Picture::of(svg, 300);
    int dark = 0;
    for (int i = 0; i < 400; ++i)
      dark += picture.dark(w.centre - 80 - (i % 20) * 0.15 + 3.2, w.rim + 70 + i / 20 * 0.2);
    share.push_back(dark / 400.0);
  }
  EXPECT_GT(share[0], 0.99);
  EXPECT_GT(share[1], 0.15);
  EXPECT_LT(share[1], 0.6);
  EXPECT_LT(share[2], 0.01);
}

TEST(VesselDrawing, RimLineIsFullWhereTheDiameterIsCertainAndBrokenOnBothSidesOfTheCentreWhereItIsNot) {
  VesselDrawing d = pot();
  std::string svg = vessel_drawing(d, at_scale(4));
  EXPECT_EQ(Picture::of(svg).along_level(where(svg).rim).size(), 1u);
  EXPECT_TRUE(says(svg, "D. 200 mm, 25 %"));
  d.diameter = DiameterKnown::uncertain;
  svg = vessel_drawing(d, at_scale(4));
  expect_sound(svg);
  const auto parts = Picture::of(svg).along_level(where(svg).rim);
  ASSERT_EQ(parts.size(), 3u);
  EXPECT_NEAR(parts[1].middle(), where(svg).centre, 0.05);
  EXPECT_NEAR(parts[1].from - parts[0].to, parts[2].from - parts[1].to, 0.1);
  EXPECT_TRUE(says(svg, "D. c. 200 mm, 25 %"));
}

TEST(VesselDrawing, WithoutADiameterOnlyTheSectionAndAShortRimLineAreDrawn) {
  VesselDrawing d = rim_sherd();
  d.diameter = DiameterKnown::unknown;
  d.rim_percent = {};
  const std::string svg = vessel_drawing(d, at_scale(4));
  expect_sound(svg);
  EXPECT_EQ(where(svg).centre, 0) << "no centre line";
  EXPECT_TRUE(says(svg, "D. unknown"));
  const Picture picture = Picture::of(svg);
  const auto rim = picture.along_level(1.3);
  ASSERT_EQ(rim.size(), 1u);
  EXPECT_NEAR(rim[0].length(), 6 + (100 - 82) / 4.0, 0.3);
  EXPECT_EQ(picture.along_level(6).size(), 1u) << "no outline of the exterior";
}

TEST(VesselDrawing, WhatIsConjecturedIsDottedAndNotFilled) {
  VesselDrawing d = pot();
  d.section.outer = {{0, 0, true}, {60, 0, true}, {80, 80, true}, {100, 160, false}};
  d.section.inner = {{0, 8, true}, {54, 8, true}, {73, 80, true}, {92, 160, false}, {100, 160, false}};
  for (const bool dashed : {false, true}) {
    DrawingSettings s = at_scale(4);
    s.dashed_conjecture = dashed;
    const std::string svg = vessel_drawing(d, s);
    expect_sound(svg);
    const Where w = where(svg);
    const Picture picture = Picture::of(svg);
    EXPECT_TRUE(picture.dark(w.centre - 86.0 / 4, w.rim + 40.0 / 4));
    EXPECT_FALSE(picture.dark(w.centre - 66.0 / 4, w.rim + 120.0 / 4));
    // Down the slanting outline of the lower exterior: many short stretches.
    int changes = 0;
    bool before = false;
    for (int i = 0; i < 600; ++i) {
      const double z = 78 - i * 0.12, r = 60 + z / 4;
      const bool now = picture.dark(w.centre + r / 4, w.rim + (160 - z) / 4);
      changes += now != before;
      before = now;
    }
    EXPECT_GE(changes, 10) << dashed;
  }
}

TEST(VesselDrawing, SignOfSurvivalIsFilledByTheShareOfTheRim) {
  for (const double percent : {12.5, 25.0, 50.0, 75.0, 100.0}) {
    VesselDrawing d = pot();
    d.rim_percent = percent;
    const std::string svg = vessel_drawing(d, at_scale(4));
    const auto elements = elements_of(svg);
    const auto circle = std::ranges::find(elements, "circle", &Element::name);
    ASSERT_NE(circle, elements.end());
    const double x = circle->number("cx") / 10, y = circle->number("cy") / 10, r = circle->number("r") / 10;
    const Picture picture = Picture::of(svg, 1200);
    int dark = 0, all = 0;
    for (double u = -r; u < r; u += 0.03) {
      for (double v = -r; v < r; v += 0.03) {
        if (u * u + v * v > (r - 0.16) * (r - 0.16)) continue;
        ++all;
        dark += picture.dark(x + u, y + v);
      }
    }
    EXPECT_NEAR(100.0 * dark / all, percent, 2.5);
    if (percent == 25) {  // from the top clockwise
      EXPECT_TRUE(picture.dark(x + 0.5, y - 0.5));
      EXPECT_FALSE(picture.dark(x - 0.5, y - 0.5));
    }
  }
}

TEST(VesselDrawing, HandleStandsOutWithItsCutBesideItAndTheCutMarked) {
  VesselDrawing d = pot();
  d.section.handle = line(
      {{92, 140}, {130, 130}, {138, 90}, {120, 50}, {76, 40}, {80, 52}, {110, 60}, {124, 90}, {118, 118}, {92, 126}});
  d.section.handle_section = line({{-14, -5}, {14, -5}, {14, 5}, {-14, 5}});
  DrawingSettings s = at_scale(2);
  s.smooth = false;
  const std::string svg = vessel_drawing(d, s);
  expect_sound(svg);
  const Where w = where(svg);
  const Picture picture = Picture::of(svg, 400);
  // The handle reaches furthest 90 mm above the base; its cut, 28 by 10 mm, stands level with that.
  const double y = w.rim + 70 / 2.0;
  const auto level = picture.along_level(y + 1);
  ASSERT_GE(level.size(), 5u);
  EXPECT_NEAR(level.back().length(), 28 / 2.0, 0.1);
  EXPECT_NEAR(picture.along_upright(level.back().middle()).front().length(), 10 / 2.0, 0.1);
  EXPECT_GT(level.back().from, w.centre + 138 / 2.0);
  // Where it grows out of the wall the wall's outline stops.
  EXPECT_FALSE(picture.dark(w.centre + 93.2 / 2, w.rim + 27.0 / 2));
}

TEST(VesselDrawing, SharpTurnsOfTheProfileAreLinesOnTheirSide) {
  VesselDrawing d = pot();
  d.section.outer = line({{0, 0}, {60, 0}, {100, 80}, {70, 150}, {72, 160}});
  d.section.inner = line({{0, 8}, {54, 8}, {91, 80}, {62, 150}, {64, 160}, {72, 160}});
  DrawingSettings s = at_scale(2);
  const std::string svg = vessel_drawing(d, s);
  const Where w = where(svg);
  const Picture picture = Picture::of(svg, 400);
  const auto across = [&](double x) {
    const auto all = picture.along_upright(w.centre + x);
    return std::ranges::count_if(all, [&](const auto& p) { return std::abs(p.middle() - w.rim - 40) < 0.2; });
  };
  EXPECT_EQ(across(20), 1) << "the carination outside";
  EXPECT_EQ(across(-20), 1) << "the same inside";
  s.edges = false;
  const std::string plain = vessel_drawing(d, s);
  EXPECT_EQ(Picture::of(plain, 400).along_upright(where(plain).centre + 20).size(), 2u) << "rim line and base line";
}

TEST(VesselDrawing, EveryKindOfBandIsDrawnWithinTheOutline) {
  for (int look = 0; look <= static_cast<int>(BandLook::glaze); ++look) {
    for (const bool inside : {false, true}) {
      VesselDrawing d = pot();
      VesselBand band;
      band.look = static_cast<BandLook>(look);
      band.from_mm = 60;
      band.to_mm = 100;
      band.inside = inside;
      d.bands = {band};
      const std::string svg = vessel_drawing(d, at_scale(3));
      expect_sound(svg);
      EXPECT_GT(svg.size(), vessel_drawing(pot(), at_scale(3)).size()) << look;
      const BandSurface surface{[](double y) { return std::optional(100 - y / 2); }, 0, 60, false};
      const BandMarks marks = band_marks(surface, band, 20, 40, 3);
      for (const auto* lines : {&marks.lines, &marks.dots}) {
        for (const auto& stroke : *lines) {
          for (const Point& p : stroke) {
            EXPECT_LE(p.x, 100 - p.y / 2 + 0.1) << look;
            EXPECT_GE(p.x, -1e-9) << look;
          }
        }
      }
    }
  }
}

TEST(VesselDrawing, ABandBeyondTheProfileIsLeftOut) {
  VesselDrawing d = rim_sherd();
  VesselBand band;
  band.look = BandLook::lattice;
  band.from_mm = 20;
  band.to_mm = 60;
  d.bands = {band};
  const std::string svg = vessel_drawing(d, at_scale(4));
  expect_sound(svg);
  d.bands.clear();
  EXPECT_EQ(svg, vessel_drawing(d, at_scale(4)));
}

TEST(VesselDrawing, ColourIsATintWhereThatIsAskedFor) {
  VesselDrawing d = pot();
  VesselBand band;
  band.look = BandLook::slip;
  band.from_mm = 40;
  band.to_mm = 120;
  band.colour = "#8A4B2A";
  d.bands = {band};
  DrawingSettings s = at_scale(4);
  EXPECT_EQ(vessel_drawing(d, s).find("#8A4B2A"), std::string::npos) << "line art for a journal that takes no tints";
  s.flat_tint = true;
  EXPECT_NE(vessel_drawing(d, s).find("#8A4B2A"), std::string::npos);
}

TEST(VesselDrawing, ALineIsNeverThinnerThanAQuarterMillimetreHoweverItIsAskedFor) {
  DrawingSettings s = at_scale(10);
  s.line_mm = s.outline_mm = 0.05;
  expect_sound(vessel_drawing(pot(), s));
}

TEST(VesselDrawing, ASectionWithoutPointsSaysSo) {
  VesselDrawing d;
  d.title = "13";
  const std::string svg = vessel_drawing(d, at_scale(4));
  expect_sound(svg);
  EXPECT_TRUE(says(svg, "No section"));
}

TEST(VesselDrawing, OneSideAloneIsDrawnAsALine) {
  VesselDrawing d = pot();
  d.section.inner.clear();
  const std::string svg = vessel_drawing(d, at_scale(4));
  expect_sound(svg);
  const Where w = where(svg);
  const auto level = Picture::of(svg).along_level(w.rim + 20);
  ASSERT_EQ(level.size(), 3u);
  EXPECT_NEAR(w.centre - level[0].middle(), 20, 0.08);
  EXPECT_LT(level[0].length(), 0.5);
}

TEST(ScaleBar, IsAsLongAsItsWordsSay) {
  for (const double scale : {0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 8.0, 10.0}) {
    const ScaleBar bar(scale);
    EXPECT_NEAR(bar.printed_mm * scale, bar.real_mm, 1e-9);
    EXPECT_GE(bar.printed_mm, 15);
    EXPECT_LE(bar.printed_mm, 50);
    const std::string svg = vessel_drawing(pot(), at_scale(scale));
    EXPECT_TRUE(says(svg, bar.words)) << bar.words;
    EXPECT_TRUE(says(svg, bar.scale_words));
  }
  EXPECT_EQ(scale_text(4), "1:4");
  EXPECT_EQ(scale_text(2.5), "1:2.5");
  EXPECT_EQ(scale_text(0.5), "2:1");
}

// Any profile at all: the drawing stays sound.
TEST(VesselDrawing, AnyProfileIsDrawnSoundly) {
  rc::check([] {
    const auto profile = [](double inset) {
      std::vector<OutlinePoint> out;
      double z = 0;
      for (int i = 0, n = *rc::gen::inRange(0, 12); i < n; ++i) {
        z += *rc::gen::inRange(-30, 400) / 10.0;
        out.push_back({std::max(0.0, *rc::gen::inRange(0, 2000) / 10.0 - inset), z, *rc::gen::inRange(0, 4) == 0});
      }
      return out;
    };
    VesselDrawing d;
    d.title = "any";
    d.number = "7";
    d.section = {"", profile(0), profile(5), profile(0), profile(0)};
    d.diameter = static_cast<DiameterKnown>(*rc::gen::inRange(0, 3));
    d.fill = static_cast<SectionFill>(*rc::gen::inRange(0, 3));
    d.rim_percent = *rc::gen::inRange(0, 1000) / 10.0;
    VesselBand band;
    band.look = static_cast<BandLook>(*rc::gen::inRange(0, 16));
    band.from_mm = *rc::gen::inRange(-20, 100);
    band.to_mm = *rc::gen::inRange(-20, 200);
    band.angle_deg = *rc::gen::inRange(-400, 400);
    band.spacing_mm = *rc::gen::inRange(-3, 40);
    band.lines = *rc::gen::inRange(-3, 30);
    d.bands = {band};
    expect_sound(vessel_drawing(d, at_scale(*rc::gen::inRange(1, 11))));
    RC_ASSERT(!::testing::Test::HasFailure());
  });
}

}  // namespace
}  // namespace sherd::figure
