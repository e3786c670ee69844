#include "figure/rim_chart.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <regex>

#include "figure/render.h"
#include "figure/testing.h"
#include "figure/testing_picture.h"

namespace sherd::figure {
namespace {

std::string chart(const RimChartSettings& settings = {}) {
  auto svg = rim_chart(settings);
  EXPECT_TRUE(svg) << (svg ? "" : svg.error().message);
  return svg ? *svg : std::string{};
}

TEST(RimChart, IsSound) { expect_sound(chart()); }

// Measured on the sheet as it is printed: along a ray between two of the chart's own, every arc lies at its radius.
TEST(RimChart, ArcsHaveTheirRadiiInPrint) {
  const RimChartSettings settings;
  const Picture picture = Picture::of(chart(), 600);
  EXPECT_NEAR(picture.width_mm(), 297, 0.05);
  EXPECT_NEAR(picture.height_mm(), 210, 0.05);
  const ChartCentre centre = rim_chart_centre(settings);
  for (const double percent : {17.3, 22.6, 27.4, 32.3}) {
    const double angle = std::numbers::pi - percent / 100 * 2 * std::numbers::pi;
    const auto dark = picture.along_ray(centre.x, centre.y, angle, 182);
    std::vector<double> radii;
    for (const auto& stretch : dark) {
      if (stretch.middle() > 19 && stretch.length() < 1) radii.push_back(stretch.middle());
    }
    ASSERT_EQ(radii.size(), 33u) << percent;  // diameters 40, 50 ... 360
    for (std::size_t i = 0; i < radii.size(); ++i) {
      EXPECT_NEAR(radii[i], 20 + 5.0 * static_cast<double>(i), 0.06) << percent;
    }
  }
}

TEST(RimChart, RaysCutTheCircleInStepsOfFivePercent) {
  const Picture picture = Picture::of(chart(), 600);
  const ChartCentre centre = rim_chart_centre({});
  // On a circle between two arcs, free of labels: 5 percent of the circle is 18 degrees.
  constexpr double kRadius = 77.5;
  std::vector<double> percents;
  bool before = false;
  double from = 0;
  for (double p = -0.4; p < 50.4; p += 0.002) {
    const double angle = std::numbers::pi - p / 100 * 2 * std::numbers::pi;
    const bool now = picture.dark(centre.x + kRadius * std::cos(angle), centre.y - kRadius * std::sin(angle));
    if (now && !before) from = p;
    if (!now && before && p - from < 0.2) percents.push_back((from + p) / 2);
    before = now;
  }
  ASSERT_EQ(percents.size(), 11u);
  for (std::size_t i = 0; i < percents.size(); ++i) EXPECT_NEAR(percents[i], 5.0 * static_cast<double>(i), 0.05);
}

TEST(RimChart, TheCheckLineIsAHundredMillimetres) {
  const std::string svg = chart();
  const auto elements = elements_of(svg);
  const auto mark = std::ranges::find_if(elements, [](const Element& e) { return e.text == "Check line of 100 mm"; });
  ASSERT_NE(mark, elements.end());
  static const std::regex kLine("M([0-9.]+) ([0-9.]+) L([0-9.]+) ([0-9.]+)");
  std::smatch m;
  const std::string d =
      std::find_if(mark, elements.end(), [](const Element& e) { return e.name == "path"; })->value("d");
  ASSERT_TRUE(std::regex_match(d, m, kLine));
  const double y = std::stod(m[2]) / 10;
  const auto level = Picture::of(svg, 600).along_level(y);
  const auto longest = std::ranges::max_element(level, {}, &Picture::Stretch::length);
  EXPECT_NEAR(longest->length(), 100.25, 0.08);  // with half the width of its end strokes on either side
}

// ISO 32000-1, 8.3.2.3: units of 1/72 inch. A4 across.
TEST(RimChart, PdfIsOnePageOfThePaper) {
  const auto pdf = to_pdf(chart(), {"Rim chart"});
  ASSERT_TRUE(pdf);
  std::smatch box;
  ASSERT_TRUE(std::regex_search(*pdf, box, std::regex("/MediaBox \\[ 0 0 ([0-9.]+) ([0-9.]+) \\]")));
  EXPECT_NEAR(std::stod(box[1]) / 72 * 25.4, 297, 0.01);
  EXPECT_NEAR(std::stod(box[2]) / 72 * 25.4, 210, 0.01);
}

TEST(RimChart, ALargerSheetHoldsLargerPots) {
  RimChartSettings a3{420, 297, 40, 520, 10};
  expect_sound(chart(a3));
  const Picture picture = Picture::of(chart(a3), 200);
  EXPECT_NEAR(picture.width_mm(), 420, 0.1);
}

TEST(RimChart, WhatTheSheetCannotHoldIsAnError) {
  const auto too_large = rim_chart({297, 210, 40, 500, 10});
  ASSERT_FALSE(too_large);
  EXPECT_EQ(too_large.error().message, "a sheet 210 mm high holds diameters to 360 mm, not 500 mm");
  for (const RimChartSettings& bad :
       {RimChartSettings{297, 210, 200, 100, 10}, RimChartSettings{297, 210, 40, 360, 0}, RimChartSettings{50, 50}}) {
    EXPECT_FALSE(rim_chart(bad));
  }
}

}  // namespace
}  // namespace sherd::figure
