#include "figure/recording_card.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <regex>
#include <vector>

#include "figure/render.h"
#include "figure/testing.h"
#include "figure/testing_picture.h"

namespace sherd::figure {
namespace {

RecordingCard small() {
  return {.width_mm = 210,
          .height_mm = 148,
          .title = "Rims",
          .site = "SAL26 Tanyard Lane",
          .head = {{{"context", 2, "1013"}, {"date", 1}}},
          .columns = {{"fabric", "", 2}, {"chord", "mm", 1}, {"percent", "%", 1}},
          .foot = {"A blank was not recorded."}};
}

TEST(RecordingCard, IsSoundAndSaysWhatIsFilledIn) {
  const auto drawn = recording_card(small());
  ASSERT_TRUE(drawn);
  EXPECT_TRUE(to_png(drawn->svg, {}));
  // Lengths stand in tenths of a millimetre.
  for (const Element& e : elements_of(drawn->svg)) {
    if (e.name == "text") {
      EXPECT_GE(e.number("font-size") / 10 / kMmPerPoint, 7 - 0.01);
    }
    if (e.attributes.contains("stroke")) {
      EXPECT_GE(e.number("stroke-width") / 10, 0.25);
    }
  }
  EXPECT_NE(drawn->svg.find(">1013<"), std::string::npos);
  EXPECT_NE(drawn->svg.find(">chord<"), std::string::npos);
}

// ISO 216: A5 is 148 by 210 mm; ISO 32000-1, 8.3.2.3: units of 1/72 inch.
TEST(RecordingCard, IsPrintedOnItsPaper) {
  const auto pdf = to_pdf(recording_card(small())->svg, {"Rims"});
  ASSERT_TRUE(pdf);
  std::smatch box;
  ASSERT_TRUE(std::regex_search(*pdf, box, std::regex("/MediaBox \\[ 0 0 ([0-9.]+) ([0-9.]+) \\]")));
  EXPECT_NEAR(std::stod(box[1]) / 72 * 25.4, 210, 0.01);
  EXPECT_NEAR(std::stod(box[2]) / 72 * 25.4, 148, 0.01);
}

TEST(RecordingCard, LinesAreHighEnoughToWriteIn) {
  const auto drawn = recording_card(small());
  ASSERT_TRUE(drawn);
  EXPECT_GE(drawn->lines, 10);
  // Down a column, on the printed sheet: beneath the names of the columns, rules no nearer to each other than 7 mm.
  const auto dark = Picture::of(drawn->svg, 300).along_upright(100);
  std::vector<double> rules;
  for (const auto& stretch : dark) {
    if (stretch.length() < 0.6 && stretch.middle() > 40) rules.push_back(stretch.middle());
  }
  ASSERT_GE(rules.size(), 8u);
  for (std::size_t i = 1; i < rules.size(); ++i) EXPECT_GE(rules[i] - rules[i - 1], 6.9);
}

TEST(RecordingCard, ASheetThatHoldsNoTableIsRefused) {
  RecordingCard card = small();
  card.height_mm = 60;
  const auto drawn = recording_card(card);
  ASSERT_FALSE(drawn);
  EXPECT_EQ(drawn.error().code, "bad_request");
}

}  // namespace
}  // namespace sherd::figure
