#include "figure/palette.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace sherd::figure {
namespace {

using Rgb = std::array<double, 3>;  // linear light, 0..1
constexpr std::array<Scheme, 3> kSchemes = {Scheme::print, Scheme::light, Scheme::dark};

// WCAG 2.2, "relative luminance": the sRGB transfer with its threshold of 0.04045.
double linear(int byte) {
  const double c = byte / 255.0;
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}
Rgb rgb(std::string_view hex) {
  const auto part = [&](std::size_t at) { return linear(std::stoi(std::string(hex.substr(at, 2)), nullptr, 16)); };
  return {part(1), part(3), part(5)};
}
double luminance(std::string_view hex) {
  const Rgb c = rgb(hex);
  return 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
}
// WCAG 2.2, "contrast ratio".
double contrast(std::string_view a, std::string_view b) {
  const double p = luminance(a), q = luminance(b);
  return (std::max(p, q) + 0.05) / (std::min(p, q) + 0.05);
}

// Machado, Oliveira & Fernandes 2009, "A physiologically-based model for simulation of color vision deficiency", IEEE
// TVCG 15(6), 1291-1298: the matrices for severity 1.0, applied to linear light.
using Matrix = std::array<Rgb, 3>;
constexpr Matrix kProtan = {
    {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}};
constexpr Matrix kDeutan = {
    {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}};
constexpr Matrix kUsual = {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};

Rgb seen(const Rgb& c, const Matrix& m) {
  Rgb out{};
  for (std::size_t i = 0; i < 3; ++i) out[i] = std::clamp(m[i][0] * c[0] + m[i][1] * c[1] + m[i][2] * c[2], 0.0, 1.0);
  return out;
}

// CIE 1976 L*a*b* of linear sRGB (IEC 61966-2-1, white D65), CIE 15.
Rgb lab(const Rgb& c) {
  const double x = 0.4124564 * c[0] + 0.3575761 * c[1] + 0.1804375 * c[2];
  const double y = 0.2126729 * c[0] + 0.7151522 * c[1] + 0.0721750 * c[2];
  const double z = 0.0193339 * c[0] + 0.1191920 * c[1] + 0.9503041 * c[2];
  const auto f = [](double t) { return t > 216.0 / 24389 ? std::cbrt(t) : (24389.0 / 27 * t + 16) / 116; };
  const double fx = f(x / 0.95047), fy = f(y), fz = f(z / 1.08883);
  return {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
}
double distance(std::string_view a, std::string_view b, const Matrix& eye) {
  const Rgb p = lab(seen(rgb(a), eye)), q = lab(seen(rgb(b), eye));
  return std::hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

// WCAG 2.2: black on white is 21 : 1. CIE 15: white is L* 100, a* and b* 0.
TEST(ColourFormulas, GiveTheKnownValues) {
  EXPECT_NEAR(contrast("#000000", "#FFFFFF"), 21, 1e-9);
  EXPECT_NEAR(contrast("#777777", "#FFFFFF"), 4.48, 0.005);  // widely quoted as just failing 4.5 (from memory)
  const Rgb white = lab(rgb("#FFFFFF"));
  EXPECT_NEAR(white[0], 100, 1e-3);
  EXPECT_NEAR(white[1], 0, 0.02);
  EXPECT_NEAR(white[2], 0, 0.02);
}

TEST(Palette, TextIsReadableOnItsGround) {
  for (const Scheme scheme : kSchemes) {
    for (const Paint text : {Paint::ink, Paint::quiet}) {
      EXPECT_GE(contrast(colour(text, scheme), paper(scheme)), 4.5) << class_of(text);
      EXPECT_GE(contrast(colour(text, scheme), ground(scheme)), 4.5) << class_of(text);
    }
    for (std::size_t i = 0; i < kCategories; ++i) {
      EXPECT_GE(contrast(colour(on_category(i), scheme), colour(category(i), scheme)), 4.5) << "category " << i;
    }
  }
}

TEST(Palette, MarksStandOutFromTheirGround) {
  std::vector<Paint> marks = {Paint::mark,      Paint::terminus,   Paint::axis,         Paint::ink_line,
                              Paint::mark_line, Paint::other_line, Paint::terminus_line};
  for (std::size_t i = 0; i < kCategories; ++i) marks.push_back(category(i));
  for (const Scheme scheme : kSchemes) {
    for (const Paint mark : marks) {
      EXPECT_GE(contrast(colour(mark, scheme), paper(scheme)), 3) << class_of(mark);
      EXPECT_GE(contrast(colour(mark, scheme), ground(scheme)), 3) << class_of(mark);
    }
  }
}

// The first four are plain areas and must differ by colour alone; the second four have a texture each. Distances from
// 2.3 on are just noticeable (Mahy, Van Eycken & Oosterlinck 1994, from memory); 6 and 12 are our own margins.
TEST(Palette, CategoriesAreToldApartByCommonColourBlindEyes) {
  for (const Scheme scheme : kSchemes) {
    for (const Matrix& eye : {kUsual, kProtan, kDeutan}) {
      for (std::size_t i = 0; i < kCategories; ++i) {
        for (std::size_t j = i + 1; j < kCategories; ++j) {
          const double least = j < kCategories / 2 ? 12 : 6;
          EXPECT_GE(distance(colour(category(i), scheme), colour(category(j), scheme), eye), least)
              << i << " and " << j;
        }
      }
    }
  }
}

TEST(Palette, EveryPaintHasAClassOfItsOwn) {
  for (std::size_t i = 0; i < kCategories; ++i) {
    for (const Scheme scheme : kSchemes) EXPECT_EQ(colour(category_line(i), scheme), colour(category(i), scheme));
  }
  std::set<std::string_view> classes;
  for (std::size_t i = 1; i < static_cast<std::size_t>(Paint::count_); ++i) {
    const auto paint = static_cast<Paint>(i);
    EXPECT_TRUE(classes.insert(class_of(paint)).second) << class_of(paint);
    EXPECT_EQ(is_outline(paint), paint >= Paint::rule) << class_of(paint);
    for (const Scheme scheme : kSchemes) EXPECT_EQ(colour(paint, scheme).size(), 7u);
  }
}

TEST(Palette, TheStylesheetNamesEveryClassWithItsColour) {
  const std::string css = stylesheet(Scheme::dark);
  EXPECT_NE(css.find(".sherd-figure .f-mark { fill: #8FB0E0; }"), std::string::npos);
  EXPECT_NE(css.find(".sherd-figure .f-rule { stroke: #3C3732; }"), std::string::npos);
  EXPECT_EQ(static_cast<std::size_t>(std::ranges::count(css, '\n')), static_cast<std::size_t>(Paint::count_) - 1);
}

}  // namespace
}  // namespace sherd::figure
