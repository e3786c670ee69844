#include "notation/scale.h"

#include <gmock/gmock.h>
#include <rapidcheck.h>

#include "base/text.h"
#include "notation/mark_testing.h"

namespace sherd::notation {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;

Result<ScaleReading> read(Attribute attribute, std::string_view text, std::string_view scale = "",
                          std::string_view to = "") {
  return read_scale(attribute, text, scale, to, test_scales());
}

std::string reads(Attribute attribute, std::string_view text, std::string_view scale = "") {
  const auto reading = read(attribute, text, scale);
  return reading ? join(reading->words, " to ") : reading.error().message;
}

// Wentworth 1922, J. Geol. 30; phi of the limits after Krumbein: medium sand 0.25-0.5 mm is phi 2 to 1, coarse silt
// 1/32-1/16 mm is 5 to 4, pebble 4-64 mm is -2 to -6.
TEST(Size, classes_of_wentworth_in_mm_and_phi) {
  EXPECT_EQ(reads(Attribute::size, "0.3 mm"), "medium sand");
  EXPECT_EQ(reads(Attribute::size, "0.03 cm"), "medium sand");
  EXPECT_EQ(reads(Attribute::size, "300 um"), "medium sand");
  EXPECT_EQ(reads(Attribute::size, "1.74 phi"), "medium sand");
  EXPECT_EQ(reads(Attribute::size, "phi 4.5"), "coarse silt");
  EXPECT_EQ(reads(Attribute::size, "0.5"), "coarse sand");  // a limit belongs to the class above
  EXPECT_EQ(reads(Attribute::size, "3 mm"), "granule");
  EXPECT_EQ(reads(Attribute::size, "-4 phi"), "pebble");
  EXPECT_EQ(reads(Attribute::size, "300 mm"), "boulder");
  EXPECT_EQ(reads(Attribute::size, "0.2-0.6 mm"), "fine sand to medium sand to coarse sand");
  const auto sand = read(Attribute::size, "medium sand");
  EXPECT_EQ(sand->measure.low, 0.25);
  EXPECT_EQ(sand->measure.high, 0.5);
  EXPECT_DOUBLE_EQ(*sand->phi, 1);
  EXPECT_DOUBLE_EQ(*sand->phi_high, 2);
}

TEST(Size, phi_and_mm_are_each_others_inverse) {
  rc::check("phi and back", [] {
    const double mm = static_cast<double>(*rc::gen::inRange(1, 1000000)) / 1000;
    RC_ASSERT(std::abs(mm_of_phi(phi_of_mm(mm)) - mm) < 1e-9 * mm);
  });
}

// Powers 1953 as in vocabs.ga.gov.au: angular 0.17-0.25, subangular 0.25-0.35, subrounded 0.35-0.49, rounded 0.49-0.70.
TEST(Rounding, classes_of_powers_and_the_rho_of_folk) {
  EXPECT_EQ(reads(Attribute::rounding, "0.3"), "subangular");
  EXPECT_EQ(reads(Attribute::rounding, "0.6"), "rounded");
  EXPECT_EQ(reads(Attribute::rounding, "rho 2.5"), "subangular");
  const auto reading = read(Attribute::rounding, "sub-rounded", "powers", "folk-rho");
  ASSERT_EQ(reading->also.size(), 1U);
  EXPECT_THAT(reading->also[0].words, ElementsAre("subrounded"));
  EXPECT_EQ(reading->also[0].measure.low, 3);
  EXPECT_THAT(reading->also[0].loss, HasSubstr("by the word alone"));
}

// Tomber & Dore 1998: sparse 0-4 %, common 5-19 %, abundant 20 % and more; an interim report of 2008: sparse 5-7,
// common 20-25.
TEST(Frequency, the_same_word_on_two_scales_is_warned_of) {
  const auto reading = read(Attribute::frequency, "common", "nrfrc");
  EXPECT_EQ(reading->measure.low, 5);
  EXPECT_EQ(reading->measure.high, 19);
  EXPECT_THAT(reading->warnings, Contains(HasSubstr("\"common\" is 20-25 % on the scale chart-steps")));
}

TEST(Frequency, conversion_shows_what_is_lost) {
  const auto reading = read(Attribute::frequency, "common", "nrfrc", "even-bins");
  ASSERT_EQ(reading->also.size(), 1U);
  const Conversion& to = reading->also[0];
  EXPECT_THAT(to.words, ElementsAre("sparse", "moderate"));
  EXPECT_FALSE(to.exact);
  // Calculated: of 5-19 %, 5 in 14 lie below 10.
  EXPECT_EQ(to.loss, "falls into 2 classes by length: sparse 36 %, moderate 64 %");
  const auto number = read(Attribute::frequency, "12%", "", "nrfrc");
  EXPECT_THAT(number->words, ElementsAre("moderate"));
  EXPECT_TRUE(number->also[0].exact);
  EXPECT_THAT(number->also[0].words, ElementsAre("common"));
}

TEST(Frequency, a_gap_between_chart_steps_is_not_bridged) {
  EXPECT_THAT(reads(Attribute::frequency, "4%", "chart-steps"),
              HasSubstr("4 % lies in a gap of the scale chart-steps"));
  EXPECT_THAT(read(Attribute::frequency, "4%", "even-bins", "chart-steps")->also[0].loss, HasSubstr("lies in a gap"));
  EXPECT_THAT(reads(Attribute::frequency, "120%"), HasSubstr("it can not be above 100"));
}

// Tomber & Dore 1998; the Mohs numbers of Peacock's classes are from memory, those of the blade from a course handbook.
TEST(Hardness, tests_by_nail_and_knife) {
  EXPECT_EQ(reads(Attribute::hardness, "scratched with a fingernail"), "soft");
  EXPECT_EQ(reads(Attribute::hardness, "Mohs 4"), "hard");
  EXPECT_EQ(reads(Attribute::hardness, "6.5", "nail-and-knife"), "very hard");
  EXPECT_THAT(read(Attribute::hardness, "hard", "nail-and-knife")->warnings, Contains(HasSubstr("rough equivalents")));
  EXPECT_EQ(reads(Attribute::hardness, "4", "blade"), "soft");
  EXPECT_THAT(reads(Attribute::hardness, "11"), HasSubstr("it can not be above 10"));
}

// Folk & Ward 1957, from memory: well sorted 0.35-0.50 phi.
TEST(Sorting, words_and_the_sigma_of_folk_and_ward) {
  EXPECT_EQ(reads(Attribute::sorting, "well sorted"), "well sorted");
  EXPECT_EQ(reads(Attribute::sorting, "0.4"), "well sorted");
  EXPECT_EQ(reads(Attribute::sorting, "ill-sorted", "two-words"), "ill-sorted");
  EXPECT_THAT(read(Attribute::sorting, "0.4")->warnings, Contains(HasSubstr("from memory")));
}

TEST(Scales, unknown_names_and_words_are_refused_with_the_nearest) {
  const auto missing = read(Attribute::size, "fine sand", "wentwort");
  EXPECT_EQ(missing.error().code, "unknown_scale");
  EXPECT_THAT(missing.error().hint, HasSubstr("did you mean \"wentworth\"?"));
  const auto word = read(Attribute::size, "medum sand", "wentworth");
  EXPECT_EQ(word.error().message,
            "cannot read the size: medum sand\n"
            "                      ^ neither a class of the scale nor a number");
  EXPECT_THAT(word.error().hint, HasSubstr("did you mean \"medium sand\"?"));
  EXPECT_THAT(reads(Attribute::size, "3 %"), HasSubstr("the scale wentworth is in mm"));
  EXPECT_THAT(reads(Attribute::hardness, "4", "nrfrc"), HasSubstr("has words and no numbers"));
  EXPECT_EQ(read(Attribute::size, "").error().code, "unreadable_scale");
}

TEST(Scales, a_word_reads_back_and_converting_to_the_own_limits_is_exact) {
  for (const Scale& scale : test_scales().scales) {
    for (const ScaleClass& one : scale.classes) {
      const auto reading = read(scale.attribute, one.word, scale.name);
      ASSERT_TRUE(reading) << scale.name << " " << one.word;
      EXPECT_THAT(reading->words, ElementsAre(one.word));
      if (!one.low || !one.high || !one.exact) continue;
      const Conversion back = convert(*reading, scale);
      EXPECT_THAT(back.words, ElementsAre(one.word)) << scale.name;
      EXPECT_TRUE(back.exact) << scale.name << " " << one.word;
    }
  }
}

TEST(Scales, a_number_falls_into_one_class_at_most) {
  rc::check("numbers on every scale", [] {
    const double number = static_cast<double>(*rc::gen::inRange(0, 10000)) / 100;
    for (const Scale& scale : test_scales().scales) {
      if (scale.unit.empty()) continue;
      const auto reading = read(scale.attribute, std::to_string(number), scale.name);
      if (reading) RC_ASSERT(reading->words.size() == 1U);
    }
  });
}

}  // namespace
}  // namespace sherd::notation
