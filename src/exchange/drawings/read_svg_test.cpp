#include "exchange/drawings/read_svg.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "exchange/drawings/path_data.h"
#include "exchange/drawings/read_tps.h"

namespace sherd::exchange {
namespace {

using testing::ElementsAre;

std::vector<Subpath> paths(std::string_view data, double tolerance = 1e-4) {
  auto read = read_path_data(data, {}, tolerance, 100'000);
  EXPECT_TRUE(read.has_value()) << data << ": " << read.error().message;
  return read.value_or(std::vector<Subpath>{});
}

/// Corners as "x,y", rounded to hundredths.
std::vector<std::string> corners(std::string_view data) {
  std::vector<std::string> out;
  const auto text = [](double v) {
    const double rounded = std::round(v * 100) / 100;
    std::string digits = std::to_string(rounded == 0 ? 0.0 : rounded);
    digits.erase(digits.find_last_not_of('0') + 1);
    if (digits.ends_with('.')) digits.pop_back();
    return digits;
  };
  for (const Subpath& path : paths(data)) {
    for (const DrawnPoint& point : path.points) out.push_back(text(point.x) + "," + text(point.y));
    out.emplace_back(path.closed ? "closed" : "open");
  }
  return out;
}

TEST(PathData, reads_lines_absolute_and_relative) {
  // The same triangle by every way of saying it (SVG 1.1, second edition, 8.3.2 to 8.3.4).
  for (const char* data : {"M 100 100 L 300 100 L 200 300 z", "m100,100 200,0-100,200z", "M100 100H300L200 300Z",
                           "M 100 100 h200 l-100 200 Z", "M1e2 100 300 1e2 200 300z"}) {
    EXPECT_THAT(corners(data), ElementsAre("100,100", "300,100", "200,300", "closed")) << data;
  }
}

TEST(PathData, reads_numbers_packed_as_tightly_as_they_may_be) {
  EXPECT_THAT(corners("M.5.5-1-1l.25-.25"), ElementsAre("0.5,0.5", "-1,-1", "-0.75,-1.25", "open"));
  EXPECT_THAT(corners("M0 0a1 1 0 012 0").back(), "open") << "flags need no blanks";
}

TEST(PathData, begins_a_new_part_at_each_move_and_after_each_end) {
  EXPECT_THAT(corners("M0 0L1 0M5 5L6 5"), ElementsAre("0,0", "1,0", "open", "5,5", "6,5", "open"));
  EXPECT_THAT(corners("M0 0L1 0L1 1zL3 3"), ElementsAre("0,0", "1,0", "1,1", "closed", "0,0", "3,3", "open"));
}

TEST(PathData, curves_stay_within_the_tolerance_of_their_formula) {
  const auto curve = paths("M0 0C0 40 60 40 60 0", 0.01);
  ASSERT_EQ(curve.size(), 1U);
  EXPECT_GT(curve[0].points.size(), 8U);
  // Each corner lies on x = 180 t^2 - 120 t^3, y = 120 t - 120 t^2; corners are at equal steps of t.
  const auto n = static_cast<double>(curve[0].points.size() - 1);
  for (std::size_t i = 0; i < curve[0].points.size(); ++i) {
    const double t = static_cast<double>(i) / n;
    EXPECT_NEAR(curve[0].points[i].x, 180 * t * t - 120 * t * t * t, 1e-9);
    EXPECT_NEAR(curve[0].points[i].y, 120 * t - 120 * t * t, 1e-9);
  }
  // The stray of a chord is an eighth of the second derivative times the square of its step: at most 360 / 8 / n^2.
  EXPECT_LE(360 / 8.0 / (n * n), 0.0101 * 1.2);
}

TEST(PathData, smooth_commands_mirror_the_control_before_them) {
  EXPECT_EQ(corners("M0 0C0 10 10 10 10 0S20-10 20 0"), corners("M0 0C0 10 10 10 10 0C10-10 20-10 20 0"));
  EXPECT_EQ(corners("M0 0Q5 10 10 0T20 0"), corners("M0 0Q5 10 10 0Q15-10 20 0"));
  EXPECT_EQ(corners("M0 0L10 0T20 0").back(), "open");
}

TEST(PathData, arcs_lie_on_their_ellipse) {
  for (const char* data : {"M10 0A10 10 0 0 1 0 10", "M10 0A10 10 0 1 0 0 10", "M10 0a10 10 0 0 1-20 0"}) {
    const bool small = std::string_view(data).find("0 0 1 0 10") != std::string_view::npos;
    double length = 0;
    const auto points = paths(data).at(0).points;
    for (std::size_t i = 0; i < points.size(); ++i) {
      EXPECT_NEAR(std::hypot(points[i].x, points[i].y), 10, 0.005) << data;
      if (i > 0) length += std::hypot(points[i].x - points[i - 1].x, points[i].y - points[i - 1].y);
    }
    const double quarters = small ? 1 : (std::string_view(data).find('a') != std::string_view::npos ? 2 : 3);
    EXPECT_NEAR(length, quarters * 5 * std::numbers::pi, 0.02) << data;
  }
}

TEST(PathData, of_an_arc_too_wide_for_its_radii_enlarges_them) {
  // SVG 1.1, F.6.6: radii too small are scaled up until they reach.
  double top = 0;
  const auto wide = paths("M0 0A1 1 0 0 1 20 0");
  for (const DrawnPoint& point : wide.at(0).points) top = std::min(top, point.y);
  EXPECT_NEAR(top, -10, 0.01);
}

TEST(PathData, that_can_not_be_read_is_refused) {
  const auto code = [](std::string_view data, std::size_t most = 1000) {
    const auto read = read_path_data(data, {}, 0.01, most);
    return read ? std::string() : read.error().code;
  };
  EXPECT_EQ(code("L 1 1"), "bad_svg");
  EXPECT_EQ(code("M 1"), "bad_svg");
  EXPECT_EQ(code("M 1 1 X 3 3"), "bad_svg");
  EXPECT_EQ(code("M 1 1 z 3 3"), "bad_svg");
  EXPECT_EQ(code("M nan 1"), "bad_svg");
  EXPECT_EQ(code("M 1e300 1"), "bad_svg");
  EXPECT_EQ(code("M0 0A1 1 0 2 0 5 5"), "bad_svg");
  EXPECT_EQ(code("M0 0L1 1 2 2 3 3 4 4 5 5 6 6 7 7 8 8", 5), "svg_too_large");
  EXPECT_EQ(code(""), "");
}

TEST(Transform, is_read_in_the_order_written) {
  const auto at = [](std::string_view text, double x, double y) {
    const auto transform = read_transform(text);
    EXPECT_TRUE(transform.has_value()) << text;
    return (*transform)({x, y});
  };
  const DrawnPoint moved = at("translate(10, 20) scale(2)", 3, 4);
  EXPECT_NEAR(moved.x, 16, 1e-12);
  EXPECT_NEAR(moved.y, 28, 1e-12);
  const DrawnPoint turned = at("rotate(90 10 10)", 20, 10);
  EXPECT_NEAR(turned.x, 10, 1e-9);
  EXPECT_NEAR(turned.y, 20, 1e-9);
  EXPECT_NEAR(at("matrix(1 2 3 4 5 6)", 1, 1).x, 9, 1e-12);
  EXPECT_NEAR(at("matrix(1,2,3,4,5,6)", 1, 1).y, 12, 1e-12);
  EXPECT_NEAR(at("skewX(45)", 0, 5).x, 5, 1e-9);
  EXPECT_EQ(read_transform("spin(3)").error().code, "bad_svg");
  EXPECT_EQ(read_transform("scale(2").error().code, "bad_svg");
}

DrawnSheet sheet(const std::string& body,
                 const std::string& head = "width=\"100mm\" height=\"50mm\" viewBox=\"0 0 200 100\"") {
  auto read = read_svg("<svg xmlns=\"http://www.w3.org/2000/svg\" " + head + ">" + body + "</svg>");
  EXPECT_TRUE(read.has_value()) << read.error().message;
  return read.value_or(DrawnSheet{});
}

TEST(Svg, is_read_in_millimetres_where_it_says_its_size) {
  const DrawnSheet drawing = sheet("<path id=\"outer\" d=\"M20 20L40 60\"/>");
  EXPECT_TRUE(drawing.in_mm);
  ASSERT_EQ(drawing.lines.size(), 1U);
  EXPECT_EQ(drawing.lines[0].name, "outer");
  EXPECT_NEAR(drawing.lines[0].points[1].r_mm, 20, 1e-12);
  EXPECT_NEAR(drawing.lines[0].points[1].z_mm, 30, 1e-12);
  EXPECT_NEAR(sheet("<path d=\"M0 0L96 0\"/>", "width=\"2in\" height=\"2in\"").lines[0].points[1].r_mm, 25.4, 1e-9);
  EXPECT_FALSE(sheet("<path d=\"M0 0L96 0\"/>", "width=\"800\" height=\"600\"").in_mm);
  EXPECT_FALSE(sheet("<path d=\"M0 0L96 0\"/>", "viewBox=\"0 0 10 10\"").in_mm);
}

TEST(Svg, follows_groups_and_their_transforms) {
  const DrawnSheet drawing = sheet(
      "<g id=\"inner\" transform=\"translate(10,0)\"><g transform=\"scale(2)\" stroke-dasharray=\"2 1\">"
      "<line x1=\"1\" y1=\"2\" x2=\"3\" y2=\"4\"/></g></g>");
  ASSERT_EQ(drawing.lines.size(), 1U);
  EXPECT_EQ(drawing.lines[0].name, "inner");
  EXPECT_TRUE(drawing.lines[0].dashed);
  EXPECT_NEAR(drawing.lines[0].points[0].r_mm, 6, 1e-12);
  EXPECT_NEAR(drawing.lines[0].points[1].z_mm, 4, 1e-12);
}

TEST(Svg, reads_every_shape_and_passes_by_what_is_none) {
  const DrawnSheet drawing = sheet(
      "<rect x=\"0\" y=\"0\" width=\"10\" height=\"20\"/><circle cx=\"50\" cy=\"50\" r=\"10\"/>"
      "<ellipse cx=\"50\" cy=\"50\" rx=\"20\" ry=\"10\"/><polygon points=\"0,0 10,0 10,10\"/>"
      "<polyline points=\"0,0 10,0 10,10\"/><text>15</text><image href=\"scan.png\"/>"
      "<defs><path d=\"M0 0L1 1\"/></defs><path style=\"display:none\" d=\"M0 0L1 1\"/>");
  ASSERT_EQ(drawing.lines.size(), 5U);
  EXPECT_TRUE(drawing.lines[0].closed);
  EXPECT_FALSE(drawing.lines[4].closed);
  for (const OutlinePoint& point : drawing.lines[1].points)
    EXPECT_NEAR(std::hypot(point.r_mm - 25, point.z_mm - 25), 5, 0.03);
  EXPECT_THAT(drawing.passed_by, ElementsAre("text", "image"));
}

std::string code_of(const std::string& svg) {
  const auto read = read_svg(svg);
  return read ? std::string() : read.error().code;
}
std::string around(const std::string& body) {
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\"><path d=\"M0 0L9 "
         "9\"/>" +
         body + "</svg>";
}

TEST(Svg, that_means_harm_is_refused) {
  EXPECT_EQ(code_of(around("")), "");
  EXPECT_EQ(code_of(around("<script>alert(1)</script>")), "hostile_svg");
  EXPECT_EQ(code_of(around("<path onload=\"alert(1)\" d=\"M0 0L1 1\"/>")), "hostile_svg");
  EXPECT_EQ(code_of(around("<g onclick=\"x()\"/>")), "hostile_svg");
  EXPECT_EQ(code_of(around("<foreignObject><p xmlns=\"http://www.w3.org/1999/xhtml\"/></foreignObject>")),
            "hostile_svg");
  EXPECT_EQ(code_of(around("<use xlink:href=\"http://example.org/x.svg#a\"/>")), "hostile_svg");
  EXPECT_EQ(code_of(around("<a xlink:href=\"javascript:alert(1)\"><path d=\"M0 0L1 1\"/></a>")), "hostile_svg");
  EXPECT_EQ(
      code_of("<!DOCTYPE svg [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;\">]>" + around("<text>&b;</text>")),
      "hostile_svg");
  EXPECT_EQ(code_of("<!DOCTYPE svg [<!ENTITY a SYSTEM \"file:///etc/passwd\">]>" + around("<text>&a;</text>")),
            "hostile_svg");
  EXPECT_EQ(code_of("<!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" "
                    "\"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd\">" +
                    around("")),
            "")
      << "the usual declaration has nothing of its own";
}

TEST(Svg, that_is_none_or_too_much_is_refused) {
  EXPECT_EQ(code_of(""), "bad_svg");
  EXPECT_EQ(code_of("not xml"), "bad_svg");
  EXPECT_EQ(code_of("<html/>"), "bad_svg");
  EXPECT_EQ(code_of("<svg><path d=\"M0 0L9 9\"/>"), "bad_svg");
  EXPECT_EQ(code_of("<svg/>"), "no_lines");
  std::string deep;
  for (int i = 0; i < 200; ++i) deep += "<g>";
  EXPECT_EQ(code_of("<svg>" + deep), "svg_too_large");
  std::string points = "M0 0";
  for (int i = 0; i < 210'000; ++i) points += " 1 1";
  EXPECT_EQ(code_of("<svg><path d=\"" + points + "\"/></svg>"), "svg_too_large");
  const auto bad = read_svg("<svg>\n<path d=\"M0 0L9\"/></svg>");
  EXPECT_EQ(bad.error().code, "bad_svg");
  EXPECT_EQ(bad.error().where.line, 2);
}

TEST(Tps, gives_each_specimen_its_landmarks_at_its_scale) {
  const auto sets =
      read_tps("LM=2\n1 2\n3.5 4\nCURVES=1\nPOINTS=1\n5 6\nIMAGE=a.jpg\nID=cup 1\nSCALE=2\r\nLM=2\n0 0\n9 9\n");
  ASSERT_TRUE(sets.has_value()) << sets.error().message;
  ASSERT_EQ(sets->size(), 2U);
  EXPECT_EQ((*sets)[0].id, "cup 1");
  ASSERT_EQ((*sets)[0].points.size(), 3U);
  EXPECT_EQ((*sets)[0].points[1].r_mm, 7);
  EXPECT_EQ((*sets)[0].points[2].z_mm, 12);
  EXPECT_FALSE((*sets)[1].scaled);
}

TEST(Tps, that_can_not_be_read_is_refused_with_its_line) {
  const auto error = [](std::string_view text) {
    const auto sets = read_tps(text);
    return sets ? std::string() : sets.error().code + " " + std::to_string(sets.error().where.line.value_or(0));
  };
  EXPECT_EQ(error("LM=2\n1 2\n"), "bad_tps 3");
  EXPECT_EQ(error("LM=2\n1 2\n3\n"), "bad_tps 3");
  EXPECT_EQ(error("LM=x\n"), "bad_tps 1");
  EXPECT_EQ(error("hello\n"), "bad_tps 1");
  EXPECT_EQ(error("POINTS=1\n1 1\n"), "bad_tps 1");
  EXPECT_EQ(error("LM=99999999999999\n"), "bad_tps 1");
  EXPECT_EQ(error("LM3=1\n1 1 1\n"), "bad_tps 1");
  EXPECT_EQ(error(""), "no_lines 0");
}

}  // namespace
}  // namespace sherd::exchange
