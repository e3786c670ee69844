#include "methods/vessel/trace.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "base/random.h"

namespace sherd::vessel {
namespace {

/// A sheet of paper, with noise, on which pens of some width draw.
class Sheet {
 public:
  Sheet(int width, int height, double noise, std::uint64_t seed = 1) {
    image_.width = width;
    image_.height = height;
    Random random(seed);
    for (int i = 0; i < width * height; ++i) image_.pixels.push_back(grey(225 + noise * random.normal()));
  }
  void dot(double x, double y, double radius, std::uint8_t value = 40) {
    for (int v = static_cast<int>(y - radius) - 1; v <= static_cast<int>(y + radius) + 1; ++v) {
      for (int u = static_cast<int>(x - radius) - 1; u <= static_cast<int>(x + radius) + 1; ++u) {
        const bool inside = u >= 0 && v >= 0 && u < image_.width && v < image_.height;
        if (inside && std::hypot(u + 0.5 - x, v + 0.5 - y) <= radius)
          image_.pixels[static_cast<std::size_t>(v * image_.width + u)] = value;
      }
    }
  }
  const GreyImage& image() const { return image_; }

 private:
  static std::uint8_t grey(double value) { return static_cast<std::uint8_t>(std::clamp(value, 0.0, 255.0)); }
  GreyImage image_;
};

double mean_gap(const TracedLine& traced, const auto& gap_of) {
  double sum = 0;
  for (const Place& point : traced.points) sum += std::abs(gap_of(point));
  return sum / static_cast<double>(traced.points.size());
}

TEST(Trace, follows_a_drawn_curve_between_two_clicks_to_a_fraction_of_a_pixel) {
  Sheet sheet(420, 320, 12);
  for (double a = 0; a < 180; a += 0.2)
    sheet.dot(210 + 150 * std::cos(a * std::numbers::pi / 180), 290 - 230 * std::sin(a * std::numbers::pi / 180), 1.7);
  const std::vector<Place> clicks{{60, 288}, {210, 62}, {360, 288}};
  const auto traced = trace_outline(sheet.image(), clicks, {});
  ASSERT_TRUE(traced.has_value()) << traced.error().message;
  const auto gap = [](const Place& p) {
    const double x = (p.x - 210) / 150;
    const double y = (290 - p.y) / 230;
    return (std::hypot(x, y) - 1) * 150;
  };
  EXPECT_LT(mean_gap(*traced, gap), 0.5);
  EXPECT_GT(traced->clearness, 0.8);
  EXPECT_GT(traced->points.size(), 15U);
  EXPECT_LT(traced->points.size(), 150U);
}

TEST(Trace, follows_the_border_of_a_filled_section) {
  Sheet sheet(300, 300, 8);
  for (double y = 20; y < 280; y += 0.5) sheet.dot(150 + 40 * std::sin(y / 40), y, 14);
  const std::vector<Place> clicks{{164 + 40 * std::sin(1.0), 40}, {164 + 40 * std::sin(6.5), 260}};
  const auto traced = trace_outline(sheet.image(), clicks, {.follow = Follow::edge});
  ASSERT_TRUE(traced.has_value()) << traced.error().message;
  // The envelope of discs of radius 14 along the curve.
  const auto gap = [](const Place& p) {
    double nearest = 1e9;
    for (double y = 0; y < 300; y += 0.25)
      nearest = std::min(nearest, std::hypot(p.x - 150 - 40 * std::sin(y / 40), p.y - y));
    return nearest - 14;
  };
  EXPECT_LT(mean_gap(*traced, gap), 0.8);
}

TEST(Trace, prefers_the_line_to_the_short_way) {
  Sheet sheet(300, 200, 5);
  for (double x = 40; x <= 140; x += 0.5) sheet.dot(x, 160 - (x - 40), 1.5);
  for (double x = 140; x <= 240; x += 0.5) sheet.dot(x, 60 + (x - 140), 1.5);
  const std::vector<Place> clicks{{40, 160}, {240, 160}};
  const auto traced = trace_outline(sheet.image(), clicks, {.margin_px = 120});
  ASSERT_TRUE(traced.has_value());
  double top = 200;
  for (const Place& point : traced->points) top = std::min(top, point.y);
  EXPECT_NEAR(top, 60, 3);
}

TEST(Trace, of_a_blank_sheet_says_that_there_was_nothing_to_see) {
  const Sheet sheet(200, 200, 0);
  const std::vector<Place> clicks{{20, 20}, {180, 150}};
  const auto traced = trace_outline(sheet.image(), clicks, {});
  ASSERT_TRUE(traced.has_value());
  EXPECT_LT(traced->clearness, 0.1);
}

TEST(Trace, moves_a_click_onto_the_line_beside_it) {
  Sheet sheet(200, 100, 5);
  for (double x = 10; x <= 190; x += 0.5) sheet.dot(x, 50, 1.5);
  const auto traced = trace_outline(sheet.image(), std::vector<Place>{{20, 54}, {180, 46}}, {});
  ASSERT_TRUE(traced.has_value());
  EXPECT_NEAR(traced->clicks.front().y, 50, 1.1);
  EXPECT_NEAR(traced->clicks.back().y, 50, 1.1);
}

TEST(Trace, refuses_what_it_can_not_follow) {
  const Sheet sheet(50, 40, 0);
  const auto code = [&](const GreyImage& image, std::vector<Place> clicks, const TraceSettings& settings = {}) {
    const auto traced = trace_outline(image, clicks, settings);
    return traced ? std::string() : traced.error().code;
  };
  EXPECT_EQ(code(sheet.image(), {{1, 1}}), "too_few_clicks");
  EXPECT_EQ(code(sheet.image(), {{1, 1}, {50, 10}}), "outside_image");
  EXPECT_EQ(code(sheet.image(), {{1, 1}, {std::nan(""), 10}}), "outside_image");
  EXPECT_EQ(code({10, 10, std::vector<std::uint8_t>(99)}, {{1, 1}, {2, 2}}), "bad_image");
  EXPECT_EQ(code({0, 10, {}}, {{1, 1}, {2, 2}}), "bad_image");
  EXPECT_EQ(code(sheet.image(), {{1, 1}, {5, 5}}, {.smoothing_px = 0}), "bad_setting");
  EXPECT_EQ(code(sheet.image(), std::vector<Place>(501, {1, 1})), "too_many_clicks");
}

TEST(Scale, is_the_length_over_the_pixels_between_two_clicks) {
  EXPECT_NEAR(*mm_per_pixel({10, 10}, {310, 410}, 50), 0.1, 1e-12);
  EXPECT_EQ(mm_per_pixel({10, 10}, {10, 10}, 50).error().code, "no_scale");
  EXPECT_EQ(mm_per_pixel({10, 10}, {20, 10}, 0).error().code, "no_scale");
}

TEST(Axes, turn_pixels_into_millimetres_about_the_axis) {
  const std::vector<Place> pixels{{100, 300}, {60, 200}, {140, 200}};
  const auto outline = to_outline(pixels, {.mm_per_px = 0.5, .axis_x = 100, .base_y = 300});
  EXPECT_NEAR(outline[0].r_mm, 0, 1e-12);
  EXPECT_NEAR(outline[1].r_mm, 20, 1e-12);
  EXPECT_NEAR(outline[1].z_mm, 50, 1e-12);
  EXPECT_NEAR(outline[2].r_mm, 20, 1e-12);
  // A drawing whose axis leans 10 degrees clockwise: its foot at (100, 300), a point 100 px up the axis.
  const double angle = 10 * std::numbers::pi / 180;
  const std::vector<Place> leaning{{100 + 100 * std::sin(angle), 300 - 100 * std::cos(angle)}};
  const auto upright = to_outline(leaning, {.mm_per_px = 1, .axis_x = 100, .base_y = 300, .turned_deg = 10});
  EXPECT_NEAR(upright[0].r_mm, 0, 1e-9);
  EXPECT_NEAR(upright[0].z_mm, 100, 1e-9);
}

}  // namespace
}  // namespace sherd::vessel
