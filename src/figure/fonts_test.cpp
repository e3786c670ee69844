#include "figure/fonts.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <librsvg/rsvg.h>
#include <rapidcheck.h>

#include <array>
#include <memory>

#include "base/text.h"
#include "figure/font_setup.h"
#include "figure/svg.h"

namespace sherd::figure {
namespace {

using testing::ElementsAre;

constexpr std::array<Face, 4> kFaces = {Face::sans, Face::sans_strong, Face::serif, Face::serif_italic};

// Width of a text as the library sets it, with kerning, in units of which the type size is 100.
double set_width(std::string_view text, Face face) {
  EXPECT_TRUE(use_shipped_fonts());
  const FontFile& font = font_files()[static_cast<std::size_t>(face)];
  const std::string svg =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9000\" height=\"200\"><text id=\"t\" font-family=\"" +
      std::string(font.family) + "\" font-weight=\"" + std::to_string(font.weight) + "\" font-style=\"" +
      (font.italic ? "italic" : "normal") + "\" font-size=\"100\" y=\"100\">" + xml_text(text) + "</text></svg>";
  const std::unique_ptr<RsvgHandle, decltype(&g_object_unref)> handle(
      rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(svg.data()), svg.size(), nullptr), g_object_unref);
  RsvgRectangle ink{}, logical{};
  EXPECT_TRUE(rsvg_handle_get_geometry_for_element(handle.get(), "#t", &ink, &logical, nullptr));
  return logical.width;
}

// Outside check: the widths that the text library takes from the font files themselves. Figures use the sans, whose
// kerning only ever narrows.
TEST(TextWidth, IsThatOfTheSetTextUpToKerning) {
  for (const Face face : kFaces) {
    const bool is_sans = face == Face::sans || face == Face::sans_strong;
    for (const char* text : {"Mean sherd weight (g)", "grey-1", "1250\u20131400", "Vessels, Ton, AVATAR",
                             "K\u00FCchengeschirr", "\u03B1\u03B2\u03B3 50 \u00B5m",
                             "\u0421\u043E\u0441\u0443\u0434 \u0441 \u0440\u0443\u0447\u043A\u043E\u0439"}) {
      const double measured = text_width_mm(text, face, 100 / kMmPerPoint), set = set_width(text, face);
      EXPECT_LE(set, measured * (is_sans ? 1.005 : 1.06)) << text << " in face " << static_cast<int>(face);
      EXPECT_GE(set, measured * 0.88) << text << " in face " << static_cast<int>(face);
    }
  }
}

TEST(TextWidth, GrowsWithTheSizeAndCountsAnEmWhereTheFontLacksACharacter) {
  EXPECT_DOUBLE_EQ(text_width_mm("grey-1", Face::sans, 16), 2 * text_width_mm("grey-1", Face::sans, 8));
  EXPECT_NEAR(text_width_mm("\U0001F3FA", Face::sans, 72), 25.4, 1e-9);
  EXPECT_EQ(text_width_mm("", Face::sans, 8), 0);
}

TEST(Fitted, LeavesTextThatFitsAndShortensTextThatDoesNot) {
  EXPECT_EQ(fitted("grey-1", Face::sans, 8, 40), "grey-1");
  const std::string cut = fitted("tin-glazed, blue painted", Face::sans, 8, 20);
  EXPECT_TRUE(cut.starts_with("tin-gl") && cut.ends_with("\u2026")) << cut;
  EXPECT_EQ(fitted("grey-1", Face::sans, 8, 0.5), "");
}

TEST(Wrapped, BreaksAtSpacesAndHyphens) {
  EXPECT_THAT(wrapped("tin-glazed, blue", Face::sans, 8, 16, 4), ElementsAre("tin-glazed,", "blue"));
  EXPECT_THAT(wrapped("colour-coated", Face::sans, 8, 12, 4), ElementsAre("colour-", "coated"));
}

TEST(Wrapped, BreaksAWordThatIsTooLongInside) {
  const std::vector<std::string> lines = wrapped("Donaudampfschifffahrt", Face::sans, 8, 10, 9);
  EXPECT_GT(lines.size(), 2u);
  EXPECT_EQ(join(lines, ""), "Donaudampfschifffahrt");
}

TEST(Wrapped, ShortensTheLastLineWhereMoreWouldFollow) {
  const std::vector<std::string> lines = wrapped("one two three four five six seven", Face::sans, 8, 12, 2);
  ASSERT_EQ(lines.size(), 2u);
  EXPECT_TRUE(lines[1].ends_with("\u2026")) << lines[1];
}

TEST(Wrapped, NoLineIsWiderThanItsBox) {
  EXPECT_TRUE(rc::check([](const std::string& text) {
    const double width = *rc::gen::inRange(4, 80);  // wider than any one character at 8 pt
    const auto most = *rc::gen::inRange<std::size_t>(1, 6);
    const std::vector<std::string> lines = wrapped(text, Face::sans_strong, 8, width, most);
    RC_ASSERT(lines.size() <= most);
    for (const std::string& line : lines) RC_ASSERT(text_width_mm(line, Face::sans_strong, 8) <= width + 1e-6);
    RC_ASSERT(text_width_mm(fitted(text, Face::serif, 9, width), Face::serif, 9) <= width + 1e-6);
  }));
}

}  // namespace
}  // namespace sherd::figure
