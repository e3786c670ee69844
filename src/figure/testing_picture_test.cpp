#include "figure/testing_picture.h"

#include <cairo.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstring>
#include <string_view>

#include "figure/render.h"

namespace sherd::figure {
namespace {

template <class Dark>
std::vector<Picture::Stretch> stretches(int n, double step_mm, Dark dark) {
  std::vector<Picture::Stretch> out;
  bool before = false;
  for (int i = 0; i <= n; ++i) {
    const bool now = i < n && dark(i);
    if (now && !before) out.push_back({i * step_mm, 0});
    if (!now && before) out.back().to = i * step_mm;
    before = now;
  }
  return out;
}

}  // namespace

Picture Picture::of(const std::string& svg, double dots_per_inch) {
  const auto png = to_png(svg, {dots_per_inch, Scheme::print});
  EXPECT_TRUE(png) << (png ? "" : png.error().message);
  Picture out;
  if (!png) return out;
  std::string_view rest = *png;
  const auto read = [](void* from, unsigned char* to, unsigned int length) {
    auto* bytes = static_cast<std::string_view*>(from);
    if (bytes->size() < length) return CAIRO_STATUS_READ_ERROR;
    std::memcpy(to, bytes->data(), length);
    bytes->remove_prefix(length);
    return CAIRO_STATUS_SUCCESS;
  };
  cairo_surface_t* surface = cairo_image_surface_create_from_png_stream(read, &rest);
  EXPECT_EQ(cairo_surface_status(surface), CAIRO_STATUS_SUCCESS);
  out.width_ = cairo_image_surface_get_width(surface);
  out.height_ = cairo_image_surface_get_height(surface);
  out.per_mm_ = dots_per_inch / 25.4;
  const bool grey_only = cairo_image_surface_get_format(surface) == CAIRO_FORMAT_A8;
  const int stride = cairo_image_surface_get_stride(surface);
  const unsigned char* data = cairo_image_surface_get_data(surface);
  for (int y = 0; y < out.height_; ++y) {
    for (int x = 0; x < out.width_; ++x) {
      const unsigned char* at = data + y * stride + x * (grey_only ? 1 : 4);
      out.grey_.push_back(grey_only ? *at : at[1]);
    }
  }
  cairo_surface_destroy(surface);
  return out;
}

bool Picture::dark_dot(int x, int y) const {
  if (x < 0 || y < 0 || x >= width_ || y >= height_) return false;
  return grey_[static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) + static_cast<std::size_t>(x)] < 128;
}

bool Picture::dark(double x_mm, double y_mm) const {
  return dark_dot(static_cast<int>(std::floor(x_mm * per_mm_)), static_cast<int>(std::floor(y_mm * per_mm_)));
}

std::vector<Picture::Stretch> Picture::along_level(double y_mm) const {
  const int y = static_cast<int>(std::floor(y_mm * per_mm_));
  return stretches(width_, 1 / per_mm_, [&](int x) { return dark_dot(x, y); });
}

std::vector<Picture::Stretch> Picture::along_upright(double x_mm) const {
  const int x = static_cast<int>(std::floor(x_mm * per_mm_));
  return stretches(height_, 1 / per_mm_, [&](int y) { return dark_dot(x, y); });
}

std::vector<Picture::Stretch> Picture::along_ray(double x_mm, double y_mm, double angle, double reach_mm) const {
  const double step = 0.25 / per_mm_;
  return stretches(static_cast<int>(reach_mm / step), step,
                   [&](int i) { return dark(x_mm + i * step * std::cos(angle), y_mm - i * step * std::sin(angle)); });
}

// A box of 10 by 5 mm at 3, 2 mm: what is measured below is measured rightly here.
TEST(Picture, MeasuresABoxToTheDot) {
  const Picture picture = Picture::of(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"20mm\" height=\"10mm\" viewBox=\"0 0 20 10\">"
      "<rect x=\"3\" y=\"2\" width=\"10\" height=\"5\"/></svg>");
  const auto level = picture.along_level(4), upright = picture.along_upright(5);
  ASSERT_EQ(level.size(), 1u);
  ASSERT_EQ(upright.size(), 1u);
  EXPECT_NEAR(level[0].from, 3, 0.05);
  EXPECT_NEAR(level[0].length(), 10, 0.05);
  EXPECT_NEAR(upright[0].from, 2, 0.05);
  EXPECT_NEAR(upright[0].length(), 5, 0.05);
}

}  // namespace sherd::figure
