#include "notation/date_radiocarbon.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "notation/testing_dates.h"

namespace sherd::notation {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

DateReading read(const std::string& text) {
  auto reading = DateReader::with({})->read(text);
  EXPECT_TRUE(reading) << text << "\n" << (reading ? "" : reading.error().message);
  return reading ? std::move(*reading) : DateReading{};
}

std::string why(const std::string& text) {
  const auto reading = DateReader::with({})->read(text);
  EXPECT_FALSE(reading) << text;
  return reading ? std::string{} : reading.error().message;
}

TEST(CalibratedDates, are_spans_of_calendar_years_with_their_probability) {
  // Internet Archaeology, notes for contributors: cal BC 3650-3520 (95%).
  const DateReading reading = read("cal BC 3650-3520 (95%)");
  EXPECT_EQ(reading.kind, DateKind::calibrated);
  EXPECT_EQ(historical_year(reading.range.earliest), -3650);
  EXPECT_EQ(historical_year(reading.range.latest), -3520);
  EXPECT_EQ(reading.probability, 0.95);
  EXPECT_EQ(reading.edtf, "-3649/-3519");
  EXPECT_THAT(reading.because, ElementsAre("calibrated radiocarbon: 3650-3520 BC"));
  EXPECT_THAT(reading.warnings, IsEmpty());
}

TEST(CalibratedDates, are_read_in_every_order) {
  const auto cases = std::vector<DateCase>{
      {"3650-3520 cal BC", -3650, -3520},   {"3650\u20133520 BC cal (95.4% probability)", -3650, -3520},
      {"calBC 3650 to 3520", -3650, -3520}, {"cal AD 1220\u20131281 (1 sigma)", 1220, 1281},
      {"cal A.D. 340-405", 340, 405},       {"cal AD 1420-60", 1420, 1460},
      {"50 cal BC-cal AD 70", -50, 70},     {"cal BC 50-AD 70", -50, 70},
      {"cal BC 3650", -3650, -3650},        {"cal bc 3650-3520", -3650, -3520}};
  expect_dates(cases, [](const std::string& text) { return DateReader::with({})->read(text); });
  expect_dates(cases, [](const std::string& text) { return read_date(text); });
}

TEST(CalibratedDates, before_present_count_back_from_1950) {
  // Radiocarbon, instructions for authors (2005): N cal BP is AD 1950 - N.
  const auto cases = std::vector<DateCase>{{"500-400 cal BP", 1450, 1550}, {"cal BP 5600-5470", -3651, -3521}};
  expect_dates(cases, [](const std::string& text) { return read_date(text); });
}

TEST(CalibratedDates, keep_probability_laboratory_and_doubt) {
  EXPECT_EQ(read("cal AD 1220-1281 (95.4%)").probability, 0.954);
  EXPECT_EQ(read("cal AD 1220-1281 at 68% confidence").probability, 0.68);
  EXPECT_EQ(read("cal AD 1220-1281 (2 sigma)").probability, 0.954);
  EXPECT_EQ(read("cal BC 3650-3520 (95%; OxA-1234)").lab, "OxA-1234");
  EXPECT_EQ(read("OxA-X-2345-12: cal BC 3650-3520").lab, "OxA-X-2345-12");
  EXPECT_EQ(read("cal BC 3650-3520?").certainty, Certainty::probable);
  EXPECT_TRUE(read("c. 3650-3520 cal BC").circa);
  EXPECT_THAT(read("cal BC 3650-3520").warnings, ElementsAre(HasSubstr("probability of the calibrated span")));
}

TEST(RadiocarbonAges, have_no_calendar_years_and_say_so) {
  const DateReading reading = read("OxA-1234, 2450\u00B165 BP");
  EXPECT_EQ(reading.kind, DateKind::radiocarbon_age);
  EXPECT_TRUE(reading.range.empty());
  EXPECT_EQ(reading.age, (RadiocarbonAge{2450, 2450, 65}));
  EXPECT_EQ(reading.lab, "OxA-1234");
  EXPECT_EQ(reading.edtf, "");
  EXPECT_THAT(reading.because,
              ElementsAre("radiocarbon age: 2450 \u00B1 65 BP, years before 1950", "laboratory number: OxA-1234"));
  EXPECT_THAT(reading.warnings, ElementsAre("a radiocarbon age has no calendar years until it is calibrated"));
}

TEST(RadiocarbonAges, are_read_in_every_form) {
  for (const char* text :
       {"2450 +- 65 BP", "2450 +/- 65 BP", "2450\u00B165 b.p.", "2450 \u00B1 65 yr BP", "BP 2450 \u00B1 65",
        "2450+\u221265 bp", "(Beta-123456) 2450 \u00B1 65 BP", "2,450 \u00B1 65 radiocarbon years BP"}) {
    EXPECT_EQ(read(text).age, (RadiocarbonAge{2450, 2450, 65})) << text;
  }
  EXPECT_EQ(read("2500-2400 BP").age, (RadiocarbonAge{2500, 2400, std::nullopt}));
  EXPECT_THAT(read("2450 BP").warnings, Contains(HasSubstr("the age has no error")));
  // Field rules of Quebec: mean and standard deviation, in years BP.
  EXPECT_EQ(read("2450 +- 65").age, (RadiocarbonAge{2450, 2450, 65}));
  EXPECT_THAT(read("2450 +- 65").warnings, Contains(HasSubstr("it was read as years BP")));
}

TEST(RadiocarbonAges, as_bc_and_ad_in_small_letters_are_turned_into_bp) {
  // Internet Archaeology, notes for contributors: bc = bp - 1949, ad = 1950 - bp.
  const DateReading bc = read("500\u00B165 bc");
  EXPECT_EQ(bc.kind, DateKind::uncalibrated);
  EXPECT_EQ(bc.age, (RadiocarbonAge{2449, 2449, 65}));
  EXPECT_EQ(read("ad 350\u00B140").age, (RadiocarbonAge{1600, 1600, 40}));
  EXPECT_EQ(read("uncal BC 500\u00B165").kind, DateKind::uncalibrated);
  EXPECT_EQ(read("500-400 uncal bc").age, (RadiocarbonAge{2449, 2349, std::nullopt}));
}

TEST(RadiocarbonAges, are_an_error_where_years_are_wanted) {
  const auto reading = read_date("2450 \u00B1 65 BP");
  ASSERT_FALSE(reading);
  EXPECT_EQ(reading.error().code, "unreadable_date");
  EXPECT_EQ(reading.error().message,
            "cannot read the date: 2450 \u00B1 65 BP\n"
            "                      ^ a radiocarbon age has no calendar years until it is calibrated");
}

TEST(RadiocarbonAges, that_are_not_plain_are_refused) {
  EXPECT_THAT(why("AD 1350 \u00B1 40"), HasSubstr("a plus-minus with BC or AD is not plain"));
  EXPECT_THAT(why("cal BC 3650 \u00B1 50"), HasSubstr("a calibrated date is a span"));
  EXPECT_THAT(why("3650-3520 cal"), HasSubstr("BC, AD or BP is not said"));
  EXPECT_THAT(why("50 cal BC-70"), HasSubstr("the era of this end is not said"));
  EXPECT_THAT(why("cal BC 3520-3650"), HasSubstr("ends here before it starts"));
  EXPECT_THAT(why("cal BC"), HasSubstr("a year or an age is wanted here"));
  EXPECT_THAT(why("2450 \u00B1 BP"), HasSubstr("the error of the age is wanted here"));
  EXPECT_THAT(why("cal AD 20-60 (0%)"), HasSubstr("more than 0 %"));
  EXPECT_THAT(why("cal AD 20-60 jug"), HasSubstr("there may stand a probability"));
  EXPECT_THAT(why("post-2450 BP"), HasSubstr("^"));
}

}  // namespace
}  // namespace sherd::notation
