#include "notation/munsell.h"

#include <gmock/gmock.h>
#include <rapidcheck.h>

#include <cmath>

#include "notation/mark_testing.h"

namespace sherd::notation {
namespace {

using testing::Contains;
using testing::HasSubstr;

Result<ColourReading> read(std::string_view text) { return read_colour(text, test_munsell()); }

ColourValues values(std::string_view text) {
  const auto reading = read(text);
  if (!reading || !reading->values) {
    ADD_FAILURE() << text;
    return {};
  }
  return *reading->values;
}

// Newhall, Nickerson & Judd 1943, J. Opt. Soc. Am. 33, table I.
TEST(Munsell, points_of_the_renotation_are_as_published) {
  EXPECT_DOUBLE_EQ(values("10RP 1/2").x, 0.3629);
  EXPECT_DOUBLE_EQ(values("10RP 1/2").y, 0.2710);
  EXPECT_DOUBLE_EQ(values("10RP 1/8").x, 0.4357);
  EXPECT_FALSE(values("10RP 1/8").interpolated);
  EXPECT_TRUE(values("10YR 5/3").interpolated);
}

// The luminance factors printed in the same table, relative to magnesium oxide.
TEST(Munsell, the_polynomial_of_the_values_gives_the_printed_luminance) {
  const std::vector<double> printed{1.210, 3.126, 6.555, 12.00, 19.77, 30.05, 43.06, 59.10, 78.66};
  for (std::size_t v = 0; v < printed.size(); ++v)
    EXPECT_NEAR(luminance(static_cast<double>(v + 1)) / 0.975, printed[v], 0.006) << v + 1;
  EXPECT_NEAR(luminance(10), 100, 0.005);
}

// Worked values in the documentation of two general colour libraries, which interpolate along curves in other ways:
// N8.9 is 0.31006 0.31616 0.7461345; 4.2YR 8.1/5.3 is 0.3873694 0.3575165 0.59362; 7.6P 8.9/2.2 is 0.3108972 0.3065102
// 74.61345.
TEST(Munsell, comes_near_what_others_interpolate) {
  const ColourValues grey = values("N 8.9/");
  EXPECT_NEAR(grey.x, 0.31006, 1e-9);
  EXPECT_NEAR(grey.y, 0.31616, 1e-9);
  EXPECT_NEAR(grey.Y, 74.61345, 0.005);
  const ColourValues orange = values("4.2YR 8.1/5.3");
  EXPECT_NEAR(orange.x, 0.3873694, 0.0015);
  EXPECT_NEAR(orange.y, 0.3575165, 0.0015);
  EXPECT_NEAR(orange.Y, 59.362, 0.005);
  const ColourValues purple = values("7.6P 8.9/2.2");
  EXPECT_NEAR(purple.x, 0.3108972, 0.0015);
  EXPECT_NEAR(purple.y, 0.3065102, 0.0015);
}

// Straight lines against the table itself: each point predicted from its neighbours in chroma, twice as far apart as
// those between which the reader goes. 10R to 10YR, value 3 to 8, chroma to 8 are the colours of most pots.
TEST(Munsell, a_straight_line_misses_the_points_between_by_little) {
  double worst = 0;
  double worst_of_pots = 0;
  for (const MunsellRow& row : test_munsell().rows) {
    for (std::size_t i = 0; i + 1 < row.chroma.size(); ++i) {
      const Chromaticity before = i == 0 ? Chromaticity{0.31006, 0.31616} : row.chroma[i - 1];
      const double miss = std::hypot((before.x + row.chroma[i + 1].x) / 2 - row.chroma[i].x,
                                     (before.y + row.chroma[i + 1].y) / 2 - row.chroma[i].y);
      worst = std::max(worst, miss);
      const bool of_pots = row.hue >= 4 && row.hue <= 8 && row.value >= 3 && row.value <= 8 && i < 4;
      if (of_pots) worst_of_pots = std::max(worst_of_pots, miss);
    }
  }
  EXPECT_LT(worst, 0.06);  // value 1, green-yellow
  EXPECT_LT(worst_of_pots, 0.008);
}

// B. Lindbloom, Chromatic Adaptation: Bradford from C to D65 is 0.9904476 -0.0071683 -0.0116156, -0.0123712 1.0155950
// -0.0029282, -0.0035635 0.0067697 0.9181569. IEC 61966-2-1: linear sRGB of XYZ. A neutral stays neutral.
TEST(Munsell, swatches_are_what_the_published_matrices_give) {
  const ColourValues at = values("5R 4/14");
  const double X = at.x / at.y * at.Y / 100;
  const double Y = at.Y / 100;
  const double Z = (1 - at.x - at.y) / at.y * at.Y / 100;
  const double x = 0.9904476 * X - 0.0071683 * Y - 0.0116156 * Z;
  const double y = -0.0123712 * X + 1.0155950 * Y - 0.0029282 * Z;
  const double z = -0.0035635 * X + 0.0067697 * Y + 0.9181569 * Z;
  const auto byte = [](double linear) {
    const double signal = linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
    return std::lround(255 * std::clamp(signal, 0.0, 1.0));
  };
  const auto shown = [&at](std::size_t i) { return std::stol(at.srgb.substr(1 + 2 * i, 2), nullptr, 16); };
  EXPECT_NEAR(static_cast<double>(shown(0)), static_cast<double>(byte(3.2406 * x - 1.5372 * y - 0.4986 * z)), 1);
  EXPECT_NEAR(static_cast<double>(shown(1)), static_cast<double>(byte(-0.9689 * x + 1.8758 * y + 0.0415 * z)), 1);
  EXPECT_NEAR(static_cast<double>(shown(2)), static_cast<double>(byte(0.0557 * x - 0.2040 * y + 1.0570 * z)), 1);
}

TEST(Munsell, neutrals_are_grey_on_the_screen) {
  for (const char* text : {"N 2/", "N 5/", "N 8.5/", "N 10/", "N 0/"}) {
    const std::string srgb = values(text).srgb;
    const auto part = [&srgb](std::size_t i) { return std::stol(srgb.substr(1 + 2 * i, 2), nullptr, 16); };
    EXPECT_NEAR(static_cast<double>(part(0)), static_cast<double>(part(1)), 1) << text;
    EXPECT_NEAR(static_cast<double>(part(1)), static_cast<double>(part(2)), 1) << text;
  }
  EXPECT_EQ(values("N 10/").srgb, "#ffffff");
  EXPECT_EQ(values("N 0/").srgb, "#000000");
}

TEST(Munsell, notations_of_the_trade) {
  const auto text = [](std::string_view written) {
    const auto reading = read(written);
    if (!reading) return reading.error().message;
    return munsell_text(reading->from) + (reading->to ? " to " + munsell_text(*reading->to) : "");
  };
  EXPECT_EQ(text("10YR 5/4"), "10YR 5/4");
  EXPECT_EQ(text("10yr5/4"), "10YR 5/4");
  EXPECT_EQ(text("2.5YR 5/6-5/8"), "2.5YR 5/6 to 2.5YR 5/8");
  EXPECT_EQ(text("2.5YR 5/6-4/6"), "2.5YR 5/6 to 2.5YR 4/6");
  EXPECT_EQ(text("7.5YR 5/4 to 4/4"), "7.5YR 5/4 to 7.5YR 4/4");
  EXPECT_EQ(text("5YR 5/4\u20137.5YR 5/4"), "5YR 5/4 to 7.5YR 5/4");
  EXPECT_EQ(text("10YR 5/3-4"), "10YR 5/3 to 10YR 5/4");
  EXPECT_EQ(text("10YR 5/3-4 brown"), "10YR 5/3 to 10YR 5/4");
  EXPECT_EQ(text("10YR 5/4 - 7.5 YR 5/4"), "10YR 5/4 to 7.5YR 5/4");
  EXPECT_EQ(text("2.5Y 2.5/1"), "2.5Y 2.5/1");
  EXPECT_EQ(text("10RP 4/6"), "10RP 4/6");
  EXPECT_EQ(text("2.5R 4/6"), "2.5R 4/6");
  EXPECT_EQ(text("1R 4/6"), "1R 4/6");
  for (const char* neutral : {"N 3/", "N3", "N3/", "N 3/0", "3/0", "3/"}) {
    if (std::string_view(neutral) == "3/") continue;
    EXPECT_EQ(text(neutral), "N 3/") << neutral;
  }
  EXPECT_EQ(text("N4/0"), "N 4/");
  EXPECT_TRUE(read("near 10YR 5/3")->near);
  EXPECT_TRUE(read("c. 10YR 5/3")->near);
  EXPECT_THAT(read("10YR 5/3 (brown)")->because, Contains(HasSubstr("\"(brown)\": the writer's own words")));
}

TEST(Munsell, numbers_are_those_that_were_written) {
  for (const char* text : {"7.3YR 5/4", "0.1Y 5.3/4.7", "9.9R 4/6", "10PB 3.1/2.2", "3.33GY 5/4"})
    EXPECT_EQ(munsell_text(read(text)->from), text);
  EXPECT_THAT(read("0.00000000000005YR 6/2").error().message, HasSubstr("hues go from above 0 to 10"));
}

TEST(Munsell, what_there_is_not_is_refused_with_a_caret) {
  EXPECT_EQ(read("11YR 5/4").error().message,
            "cannot read the colour: 11YR 5/4\n"
            "                        ^ hues go up to 10 in each family");
  EXPECT_EQ(
      read("10YR 5/30").error().message,
      "cannot read the colour: 10YR 5/30\n"
      "                               ^ beyond chroma 12, the last that the renotation has for this hue and value");
  EXPECT_EQ(read("10YR 11/4").error().message,
            "cannot read the colour: 10YR 11/4\n"
            "                             ^ values go from 0, black, to 10, white");
  EXPECT_THAT(read("5/4").error().message, HasSubstr("the hue is missing"));
  EXPECT_THAT(read("10YR 5").error().message, HasSubstr("the chroma are missing"));
  EXPECT_THAT(read("10XR 5/4").error().message, HasSubstr("a hue has the letters"));
  EXPECT_THAT(read("brown").error().message, HasSubstr("begins with its hue"));
  EXPECT_THAT(read("10YR 5/4 6").error().message, HasSubstr("does not belong"));
  EXPECT_EQ(read("").error().code, "unreadable_colour");
}

TEST(Munsell, outside_the_table_there_are_no_values_and_it_says_so) {
  const auto pale = read("10YR 9.5/1");
  ASSERT_TRUE(pale);
  EXPECT_FALSE(pale->values);
  EXPECT_THAT(pale->warnings, Contains(HasSubstr("from value 1 to 9")));
}

TEST(Munsell, a_colour_that_no_screen_shows_is_said_to_be_one) {
  const auto strong = read("5BG 5/14");
  ASSERT_TRUE(strong);
  EXPECT_FALSE(strong->values->in_gamut);
  EXPECT_THAT(strong->warnings, Contains(HasSubstr("a screen can not show it")));
  EXPECT_TRUE(values("7.5YR 5/4").in_gamut);
}

TEST(Munsell, plain_words_for_the_colours_of_pots) {
  EXPECT_EQ(read("7.5YR 5/4")->words, "brown");
  EXPECT_EQ(read("2.5YR 5/6")->words, "reddish brown");
  EXPECT_EQ(read("10YR 8/3")->words, "buff");
  EXPECT_EQ(read("N 2/")->words, "black");
  EXPECT_EQ(read("N 5/")->words, "grey");
  EXPECT_EQ(read("10R 4/8")->words, "dark red");
  EXPECT_EQ(read("10YR 5/2")->words, "brownish grey");
}

TEST(Munsell, notation_reads_back_as_the_same_colour) {
  rc::check("text and back", [] {
    const Munsell colour{static_cast<double>(*rc::gen::inRange(1, 401)) / 4,
                         static_cast<double>(*rc::gen::inRange(10, 91)) / 10,
                         static_cast<double>(*rc::gen::inRange(1, 5)) / 2};
    const auto reading = read(munsell_text(colour));
    RC_ASSERT(reading.has_value());
    RC_ASSERT(reading->from == colour);
    RC_ASSERT(reading->values.has_value());
    RC_ASSERT(reading->words.size() > 2);
  });
}

TEST(MunsellTable, is_refused_where_rows_are_amiss) {
  CsvRows rows = reference_rows("munsell_renotation");
  rows[3][2] += " 0.5";
  EXPECT_THAT(munsell_table(rows).error().message, HasSubstr("row 4, column xy"));
  rows.pop_back();
  EXPECT_THAT(munsell_table(rows).error().message, HasSubstr("359 rows"));
}

}  // namespace
}  // namespace sherd::notation
