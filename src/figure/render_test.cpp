#include "figure/render.h"

#include <cairo.h>
#include <gtest/gtest.h>

#include <cstdio>
#include <cstring>
#include <regex>
#include <thread>
#include <vector>

#include "figure/bars.h"
#include "figure/png_file.h"

namespace sherd::figure {
namespace {

std::string figure() {
  EstimatesData data;
  data.about.title = "Sherds by fabric";
  data.measure = "Sherds";
  data.rows_word = "fabrics";
  data.rows = {{"grey-1", 34, {}, {}, {}, "fabric=grey-1"}, {"shell-3", 21, 18, 25, {}, "fabric=shell-3"}};
  return bars(data, {});
}

std::string of_size(const char* width, const char* height) {
  return std::string("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"") + width + "\" height=\"" + height +
         "\" viewBox=\"0 0 10 10\"/>";
}

std::string must_png(const std::string& content) {
  const auto png =
      to_png("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"10mm\" height=\"10mm\" viewBox=\"0 0 10 10\">" +
                 content + "</svg>",
             {600, Scheme::print});
  EXPECT_TRUE(png) << (png ? "" : png.error().message);
  return png.value_or(std::string(200, ' '));
}

struct Picture {
  int width = 0, height = 0;
  std::uint32_t corner = 0;  // 0xRRGGBB
  std::vector<std::uint32_t> pixels;
};

// Reads a PNG back.
Picture picture_of(const std::string& png) {
  std::string_view rest = png;
  const auto read = [](void* from, unsigned char* to, unsigned int length) {
    auto* bytes = static_cast<std::string_view*>(from);
    if (bytes->size() < length) return CAIRO_STATUS_READ_ERROR;
    std::memcpy(to, bytes->data(), length);
    bytes->remove_prefix(length);
    return CAIRO_STATUS_SUCCESS;
  };
  cairo_surface_t* surface = cairo_image_surface_create_from_png_stream(read, &rest);
  EXPECT_EQ(cairo_surface_status(surface), CAIRO_STATUS_SUCCESS);
  Picture out{cairo_image_surface_get_width(surface), cairo_image_surface_get_height(surface), 0, {}};
  const int stride = cairo_image_surface_get_stride(surface);
  for (int y = 0; y < out.height; ++y) {
    for (int x = 0; x < out.width; ++x) {
      std::uint32_t pixel = 0;
      std::memcpy(&pixel, cairo_image_surface_get_data(surface) + y * stride + x * 4, sizeof pixel);
      out.pixels.push_back(pixel & 0xFFFFFFu);
    }
  }
  out.corner = out.pixels.back();
  cairo_surface_destroy(surface);
  return out;
}

// ISO 32000-1, 7.7.3.3 and 8.3.2.3: the media box in units of 1/72 inch.
TEST(Pdf, ThePageIsAsLargeAsTheFigure) {
  const auto pdf = to_pdf(of_size("84mm", "60.5mm"), {"t"});
  ASSERT_TRUE(pdf) << pdf.error().message;
  std::smatch box;
  ASSERT_TRUE(std::regex_search(*pdf, box, std::regex("/MediaBox \\[ 0 0 ([0-9.]+) ([0-9.]+) \\]")));
  EXPECT_NEAR(std::stod(box[1]) / 72 * 25.4, 84, 0.01);
  EXPECT_NEAR(std::stod(box[2]) / 72 * 25.4, 60.5, 0.01);
}

TEST(Pdf, HoldsTheShippedFontsAndNoOther) {
  const auto pdf = to_pdf(figure(), {"Sherds by fabric"});
  ASSERT_TRUE(pdf) << pdf.error().message;
  static const std::regex kFont("/BaseFont /[A-Z]{6}\\+([A-Za-z-]+)");
  int fonts = 0;
  for (std::sregex_iterator it(pdf->begin(), pdf->end(), kFont), end; it != end; ++it, ++fonts) {
    const std::string name = (*it)[1];
    EXPECT_TRUE(name == "Inter-Regular" || name == "Inter-SemiBold") << name;
  }
  EXPECT_GE(fonts, 2);
}

TEST(Pdf, TheSameFigureGivesTheSameBytes) {
  const auto one = to_pdf(figure(), {"t"}), two = to_pdf(figure(), {"t"});
  ASSERT_TRUE(one && two);
  EXPECT_TRUE(*one == *two);
  EXPECT_NE(one->find("/CreationDate (20000101000000Z)"), std::string::npos);
}

TEST(Pdf, SeveralDrawingsArePagesOfTheirOwnSize) {
  const std::vector<std::string> drawings{of_size("84mm", "60mm"), of_size("135mm", "205mm")};
  const auto pdf = to_pdf_pages(drawings, {"t"});
  ASSERT_TRUE(pdf) << pdf.error().message;
  static const std::regex kBox("/MediaBox \\[ 0 0 ([0-9.]+) ([0-9.]+) \\]");
  std::vector<double> widths;
  for (std::sregex_iterator it(pdf->begin(), pdf->end(), kBox), end; it != end; ++it)
    widths.push_back(std::stod((*it)[1]) / 72 * 25.4);
  ASSERT_EQ(widths.size(), 2u);
  EXPECT_NEAR(widths[0], 84, 0.01);
  EXPECT_NEAR(widths[1], 135, 0.01);
  EXPECT_EQ(to_pdf_pages({}, {}).error().code, "no_pages");
}

TEST(Png, HasAsManyDotsAsItsSizeAsksFor) {
  const auto png = to_png(of_size("25.4mm", "50.8mm"), {300, Scheme::print});
  ASSERT_TRUE(png) << png.error().message;
  EXPECT_EQ(picture_of(*png).width, 300);
  EXPECT_EQ(picture_of(*png).height, 600);
}

// ISO/IEC 15948:2004: the header's tenth byte is the colour type (11.2.2), pHYs says dots a metre (11.3.5.3).
TEST(Png, GreyDrawingsTakeAByteAPixelAndSayTheirDotsAnInch) {
  const std::string grey = must_png("<rect width=\"5\" height=\"5\" fill=\"#777777\"/>");
  EXPECT_EQ(grey[25], 0) << "grey";
  EXPECT_EQ(must_png("<rect width=\"1\" height=\"1\" fill=\"#2A4B7C\"/>")[25], 2) << "red, green and blue";
  const std::size_t dots = grey.find("pHYs");
  ASSERT_NE(dots, std::string::npos);
  const auto number = [&](std::size_t at) {
    std::uint32_t n = 0;
    for (std::size_t i = 0; i < 4; ++i) n = n << 8 | static_cast<unsigned char>(grey[at + i]);
    return n;
  };
  EXPECT_EQ(number(dots + 4), 23622U) << "600 dots an inch in dots a metre";
  EXPECT_EQ(number(dots + 8), 23622U);
  EXPECT_EQ(grey[dots + 12], 1) << "the metre";
}

// Against cairo, which reads the file back with a reader of its own.
TEST(Png, EveryPixelComesBackAsItWas) {
  for (const std::uint32_t colours : {0x010101U, 0x01FF7FU}) {
    std::vector<std::uint32_t> drawn(64 * 37);
    for (std::size_t i = 0; i < drawn.size(); ++i)
      drawn[i] = static_cast<std::uint32_t>(i * i % 251) * colours & 0xFFFFFF;
    const auto png = png_file({reinterpret_cast<const unsigned char*>(drawn.data()), 64, 37, 64 * 4}, 300);
    ASSERT_TRUE(png);
    EXPECT_EQ(picture_of(*png).pixels, drawn);
  }
}

TEST(Png, LiesOnThePaperOfItsScheme) {
  for (const Scheme scheme : {Scheme::print, Scheme::light, Scheme::dark}) {
    const auto png = to_png(figure(), {150, scheme});
    ASSERT_TRUE(png);
    char hex[8];
    std::snprintf(hex, sizeof hex, "#%06X", static_cast<unsigned>(picture_of(*png).corner));
    EXPECT_EQ(hex, paper(scheme));
  }
}

TEST(Png, TheSameFigureGivesTheSameBytesOnAnyThread) {
  const std::string svg = figure();
  const auto first = to_png(svg, {});
  ASSERT_TRUE(first);
  Result<std::string> one, two;
  std::thread a([&] { one = to_png(svg, {}); }), b([&] { two = to_png(svg, {}); });
  a.join();
  b.join();
  ASSERT_TRUE(one && two);
  EXPECT_TRUE(*one == *first && *two == *first);
}

TEST(Render, WhatIsNoDrawingIsAnError) {
  const auto pdf = to_pdf("pottery", {});
  ASSERT_FALSE(pdf);
  EXPECT_EQ(pdf.error().code, "svg_unreadable");
  EXPECT_TRUE(pdf.error().message.starts_with("The drawing cannot be read: ")) << pdf.error().message;
}

TEST(Render, ADrawingWithoutItsSizeInPrintIsAnError) {
  for (const std::string& svg : {of_size("100%", "100%"), of_size("100", "100"), of_size("0mm", "10mm")}) {
    const auto png = to_png(svg, {});
    ASSERT_FALSE(png) << svg;
    EXPECT_EQ(png.error().code, "svg_without_size");
  }
}

TEST(Render, APictureBeyondReasonIsAnError) {
  for (const double dpi : {1e6, 0.0, -1.0}) {
    const auto png = to_png(figure(), {dpi, Scheme::print});
    ASSERT_FALSE(png);
    EXPECT_EQ(png.error().code, "picture_too_large");
    EXPECT_EQ(png.error().message, "The picture would have less than 1 or more than 20,000 pixels a side.");
  }
}

}  // namespace
}  // namespace sherd::figure
