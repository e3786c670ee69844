#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "notation/testing_dates.h"

namespace sherd::notation {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

void expect_read(const std::vector<DateCase>& cases, const DateStyle& style = default_date_style()) {
  expect_dates(cases, [&](const std::string& text) { return read_date(text, style); });
}

std::string why(const std::string& text) {
  const auto reading = read_date(text);
  EXPECT_FALSE(reading) << text;
  return reading ? std::string{} : reading.error().message;
}

// Years are calculated from what is written, unless a source stands beside.

TEST(ReadDate, decades) {
  expect_read({{"1530s", 1530, 1539},
               {"the 1530s", 1530, 1539},
               {"1530's", 1530, 1539},
               {"1530\u2019s", 1530, 1539},
               {"c. 1530s", 1520, 1549},
               {"1530s-40s", 1530, 1549},
               {"1530s to 1550s", 1530, 1559},
               {"1990s-2010s", 1990, 2019},
               {"530s BC", -539, -530},
               {"post-1530s", 1539, kOpenEnd},
               {"1530s?", 1530, 1539}});
  EXPECT_THAT(read_date("1530s-40s")->because,
              ElementsAre("1530s-40s is short for 1530s-1540s", "1530s: 1530-1539", "1540s: 1540-1549"));
}

TEST(UnreadableDate, a_decade_that_may_be_a_century_or_has_parts) {
  EXPECT_THAT(why("1500s"), HasSubstr("this may be ten years or a hundred: write C16, or 1500-1509"));
  EXPECT_THAT(why("1535s"), HasSubstr("a decade begins in a year that ends in 0"));
  EXPECT_THAT(why("30s"), HasSubstr("the decade of which century is not said"));
  EXPECT_THAT(why("early 1530s"), HasSubstr("a decade has no parts by any style"));
}

TEST(ReadDate, termini_and_the_present) {
  expect_read({{"TPQ 270", 270, kOpenEnd},
               {"tpq AD 270", 270, kOpenEnd},
               {"terminus post quem C3", 201, kOpenEnd},
               {"terminus ante quem 410", kOpenEnd, 410},
               {"TAQ 410", kOpenEnd, 410},
               {"1900-present", 1900, kOpenEnd},
               {"1900 to the present", 1900, kOpenEnd}});
}

TEST(ReadDate, a_century_on_both_sides_of_christ) {
  expect_read({{"C1 BC/AD", -100, 100}, {"1st c. BC/AD", -100, 100}, {"1st century BC-AD", -100, 100}});
  EXPECT_THAT(why("late C1 BC/AD"), HasSubstr("a year or a century is wanted here"));
}

TEST(ReadDate, hyphens_inside_a_century) {
  expect_read({{"16th-century", 1501, 1600}, {"mid-16th-century", 1534, 1567}, {"15th-16th-century", 1401, 1600}});
}

TEST(ReadDate, millennia) {
  expect_read({{"2nd millennium BC", -2000, -1001},
               {"4th-3rd millennium BC", -4000, -2001},
               {"first millennium AD", 1, 1000},
               {"1st millennium BC", -1000, -1},
               {"2nd half of the 1st millennium BC", -500, -1},
               {"1st quarter 2nd millennium BC", -2000, -1751}});
  EXPECT_THAT(why("early 2nd millennium BC"), HasSubstr("halves and quarters"));
}

TEST(ReadDate, thousands_with_a_comma) {
  expect_read({{"10,000 BC", -10000, -10000},
               {"500,000-150,001 BC", -500000, -150001},
               {"4,000 BC", -4000, -4000},
               {"1,066", 1066, 1066}});
  EXPECT_THAT(why("1066,1087"), HasSubstr("^"));
  EXPECT_THAT(why("1,06"), HasSubstr("^"));
}

TEST(ReadDate, the_years_of_a_makers_work_by_the_style_that_gives_them_a_width) {
  // Object ID (ICOM), guide to dates: a maker flourished 20 years either side.
  expect_read({{"fl. 1760", 1740, 1780}, {"fl. 1760-80", 1760, 1780}}, *date_style_named("object-id"));
  EXPECT_THAT(why("fl. 1760"), HasSubstr("the style default does not say how far fl. reaches"));
}

TEST(ReadDate, a_slash_is_a_range_or_either_by_setting) {
  const auto range = read_date("120/140");
  EXPECT_EQ(range->range, (YearRange{Year{120}, Year{140}}));
  EXPECT_THAT(range->either, IsEmpty());
  const DateReader reader = *DateReader::with({}, {.slash_is_either = true});
  const auto either = reader.read("120/140");
  EXPECT_EQ(either->range, (YearRange{Year{120}, Year{140}}));
  EXPECT_THAT(either->either, ElementsAre(YearRange{Year{120}, Year{120}}, YearRange{Year{140}, Year{140}}));
  EXPECT_EQ(either->edtf, "[0120,0140]");
  EXPECT_EQ(reader.read("1120/35")->edtf, "[1120,1135]");
  EXPECT_THAT(reader.read("c. 120/140")->either,
              ElementsAre(YearRange{Year{110}, Year{130}}, YearRange{Year{130}, Year{150}}));
  EXPECT_THAT(reader.read("120/c.140")->either,
              ElementsAre(YearRange{Year{120}, Year{120}}, YearRange{Year{130}, Year{150}}));
  EXPECT_THAT(reader.read("120-140")->either, IsEmpty());
}

TEST(ReadDate, the_word_or_is_always_one_of_the_two) {
  const auto reading = read_date("late 2nd or early 4th");
  EXPECT_THAT(reading->either, ElementsAre(YearRange{Year{168}, Year{200}}, YearRange{Year{301}, Year{333}}));
  EXPECT_THAT(reading->because, Contains("either 168-200 or 301-333, and nothing between"));
  EXPECT_EQ(reading->edtf, "[0168..0200,0301..0333]");
}

TEST(ReadDate, an_x_says_that_it_lies_between) {
  EXPECT_THAT(read_date("43x60")->because, ElementsAre(HasSubstr("at some time between the two")));
  EXPECT_EQ(read_date("43 x 60")->edtf, "0043/0060");
}

TEST(ReadDate, small_letters_are_uncalibrated_by_setting) {
  // Internet Archaeology, notes for contributors: bp to bc: bc = bp - 1949, ad = 1950 - bp; small letters:
  // uncalibrated.
  const DateReader reader = *DateReader::with({}, {.small_letters_uncalibrated = true});
  const auto bc = reader.read("350 bc");
  EXPECT_EQ(bc->kind, DateKind::uncalibrated);
  EXPECT_TRUE(bc->range.empty());
  EXPECT_EQ(bc->age, (RadiocarbonAge{2299, 2299, std::nullopt}));
  EXPECT_EQ(reader.read("ad 350")->age, (RadiocarbonAge{1600, 1600, std::nullopt}));
  EXPECT_EQ(reader.read("350-250 bc")->age, (RadiocarbonAge{2299, 2199, std::nullopt}));
  EXPECT_EQ(reader.read("350 BC")->kind, DateKind::calendar);
  EXPECT_EQ(reader.read("350 BC")->range, (YearRange{from_historical(-350), from_historical(-350)}));
}

TEST(DateStyles, by_quarters_are_from_memory) {
  // From memory: reports that take early and late as the outer quarters.
  expect_read({{"early C13", 1201, 1225}, {"mid C13", 1226, 1275}, {"L13", 1276, 1300}}, *date_style_named("quarters"));
}

TEST(ReadDate, gives_the_same_in_edtf) {
  // Trap between the two: EDTF counts 1 BC as 0000, so 12 BC is -0011 (ISO 8601-1, years before 0001).
  EXPECT_EQ(read_date("12 BC")->edtf, "-0011");
  EXPECT_EQ(read_date("1 BC")->edtf, "0000");
  EXPECT_EQ(read_date("50 BC-AD 20")->edtf, "-0049/0020");
  EXPECT_EQ(read_date("C13?")->edtf, "1201?/1300?");
  EXPECT_EQ(read_date("c. 1350")->edtf, "1340~/1360~");
  EXPECT_EQ(read_date("poss. c. 1350")->edtf, "1340%/1360%");
  EXPECT_EQ(read_date("270+")->edtf, "0270/..");
  EXPECT_EQ(read_date("pre-410")->edtf, "../0409");
  EXPECT_EQ(read_date("undated")->edtf, "XXXX");
}

TEST(ReadDate, takes_edtf_where_the_text_can_be_nothing_else) {
  // Extended Date/Time Format, Library of Congress, 4 February 2019.
  expect_read({{"20XX", 2000, 2099},
               {"20xx", 2000, 2099},
               {"201X", 2010, 2019},
               {"1950S2", 1900, 1999},
               {"Y-170000002", -170000003, -170000003},
               {"1985/..", 1985, kOpenEnd},
               {"../1985", kOpenEnd, 1985},
               {"1985/", 1985, kOpenEnd},
               {"1984%", 1984, 1984},
               {"2024-05-01", 2024, 2024},
               {"[1667,1760-12]", 1667, 1760}});
  EXPECT_EQ(read_date("20XX")->style, "default");
}

TEST(ReadDate, keeps_a_minus_historical_and_warns_where_edtf_means_another_year) {
  // Cataloging Cultural Objects 4.2.3.2 writes -0012 for 12 BCE; EDTF writes -0011.
  expect_read({{"-120", -120, -120}, {"-0012", -12, -12}, {"-120 to -100", -120, -100}});
  const auto edtf = read_date("-0119/..");
  EXPECT_EQ(historical_year(edtf->range.earliest), -120);
  EXPECT_THAT(edtf->warnings, ElementsAre("this is EDTF, whose year 0000 is 1 BC: -0119 is 120 BC"));
  EXPECT_THAT(read_date("1350~")->warnings, ElementsAre(HasSubstr("no width to ~ and %")));
}

TEST(ReadDate, by_the_edtf_style_reads_edtf_alone) {
  const DateStyle style = *date_style_named("edtf");
  expect_read({{"-0011", -12, -12}, {"12", 1200, 1299}, {"0120/0140", 120, 140}}, style);
  EXPECT_FALSE(read_date("C13", style));
  EXPECT_EQ(read_date("0120", style)->style, "edtf");
}

}  // namespace
}  // namespace sherd::notation
