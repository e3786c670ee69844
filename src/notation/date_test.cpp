#include "notation/date.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <optional>
#include <string>
#include <vector>

#include "base/text.h"

namespace sherd::notation {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

constexpr std::optional<std::int64_t> kOpen;

/// Text and the historical years it stands for.
struct Case {
  std::string text;
  std::optional<std::int64_t> earliest, latest;
};

std::optional<std::int64_t> shown(const std::optional<Year>& year) {
  return year ? std::optional(historical(*year)) : std::nullopt;
}

void expect_all(const std::vector<Case>& cases, const DateStyle& style = default_date_style()) {
  for (const Case& one : cases) {
    const auto reading = read_date(one.text, style);
    ASSERT_TRUE(reading) << one.text << "\n" << reading.error().message;
    EXPECT_EQ(shown(reading->range.earliest), one.earliest) << one.text;
    EXPECT_EQ(shown(reading->range.latest), one.latest) << one.text;
  }
}

// The values of the default style are calculated from its rule: the nth century is 100n-99 to 100n, its thirds 1-33,
// 34-67 and 68-100. That rule is published by J. Petrovay, "Search dates" (2010). What is from elsewhere says so.

TEST(ReadDate, years_and_ranges) {
  expect_all({{"AD 120-250", 120, 250},
              {"120-250", 120, 250},
              {"AD120/250", 120, 250},
              {"120 to 250", 120, 250},
              {"120\u2013250", 120, 250},
              {"120 \u2014 250", 120, 250},
              {"AD 43-409", 43, 409},
              {"43x60", 43, 60},
              {"43\u00D760", 43, 60},
              {"120/140", 120, 140},
              {"AD 50-AD 80", 50, 80},
              {"1500", 1500, 1500},
              {"from 120 to 250", 120, 250},
              {"between 120 and 250", 120, 250},
              {"120-250 AD", 120, 250},
              {"A.D. 120-250", 120, 250},
              {"120-250 CE", 120, 250},
              {" 120 \u2013 250. ", 120, 250}});
}

TEST(ReadDate, abbreviated_ranges) {
  expect_all({{"1120-35", 1120, 1135},
              {"1120\u201335", 1120, 1135},
              {"1198-205", 1198, 1205},
              {"1914-8", 1914, 1918},
              {"AD 1120-35", 1120, 1135},
              {"c. 1120-35", 1110, 1145},
              {"120-35", 120, 135},
              {"1901-05", 1901, 1905}});
}

TEST(ReadDate, centuries) {
  expect_all({{"C2", 101, 200},
              {"2nd century", 101, 200},
              {"2C", 101, 200},
              {"C1-C2", 1, 200},
              {"C2-C3", 101, 300},
              {"2nd-3rd c.", 101, 300},
              {"C2-3", 101, 300},
              {"c13", 1201, 1300},
              {"C 13", 1201, 1300},
              {"C13th", 1201, 1300},
              {"19th", 1801, 1900},
              {"tenth century", 901, 1000},
              {"2nd cent. AD", 101, 200},
              {"2nd to 3rd centuries", 101, 300},
              {"2-3rd century", 101, 300},
              {"C1", 1, 100},
              {"the 13th century", 1201, 1300},
              {"3rd-4thC", 201, 400},
              {"13thC", 1201, 1300},
              {"late 2nd or early 3rd", 168, 233}});
}

TEST(ReadDate, parts_of_centuries) {
  expect_all({{"E3", 201, 233},
              {"M3", 234, 267},
              {"L3", 268, 300},
              {"M2-L2", 134, 200},
              {"L13-E14", 1268, 1333},
              {"late 13th to early 14th", 1268, 1333},
              {"L1-E2", 68, 133},
              {"M13-M14", 1234, 1367},
              {"LC13-EC14", 1268, 1333},
              {"late C13-early C14", 1268, 1333},
              {"mid-13th century", 1234, 1267},
              {"early to mid 13th century", 1201, 1267},
              {"E-M13", 1201, 1267},
              {"EM13", 1201, 1267},
              {"mid-late C13", 1234, 1300},
              {"L13-14", 1268, 1400},
              {"late 1st-2nd century AD", 68, 200},
              {"M2-250", 134, 250},
              {"early 13th c.", 1201, 1233}});
}

TEST(ReadDate, halves_and_quarters) {
  expect_all({{"3rd quarter C2", 151, 175},
              {"C2.3", 151, 175},
              {"Q3 C2", 151, 175},
              {"Q1 C3", 201, 225},
              {"1st half C13", 1201, 1250},
              {"2nd half C13", 1251, 1300},
              {"first half of the 13th century", 1201, 1250},
              {"H2 C13", 1251, 1300},
              {"last quarter of the 13th century", 1276, 1300},
              {"1st-2nd quarter C2", 101, 150},
              {"2nd half C2-1st half C3", 151, 250},
              {"last third C3", 268, 300}});
}

TEST(ReadDate, before_christ) {
  expect_all({{"C1 BC", -100, -1},
              {"1st century BC", -100, -1},
              {"E1BC", -100, -68},
              {"L1BC", -33, -1},
              {"L3 BC", -233, -201},
              {"C1BC-C1AD", -100, 100},
              {"1st century BC to 1st century AD", -100, 100},
              {"50-20 BC", -50, -20},
              {"50 BC-AD 20", -50, 20},
              {"-120", -120, -120},
              {"-120--50", -120, -50},
              {"-120 to -50", -120, -50},
              {"-50-20", -50, 20},
              {"BC 100-40", -100, -40},
              {"C2-C1 BC", -200, -1},
              {"100 BC", -100, -100},
              {"500000 BC", -500000, -500000}});
}

TEST(ReadDate, an_early_part_before_christ_runs_forward_in_time) {
  // Petrovay's formula with the span's start at -100n and steps forward: early 2nd century BC -200 to -168.
  expect_all({{"early 2nd century BC", -200, -168}, {"Q1 C1 BC", -100, -76}});
}

TEST(ReadDate, circa) {
  expect_all({{"c. 1350", 1340, 1360},
              {"ca. 1350", 1340, 1360},
              {"circa 1350", 1340, 1360},
              {"c1350", 1340, 1360},
              {"c.AD 43-60", 33, 70},
              {"c. AD 14", 4, 24},
              {"1340-c.1360", 1340, 1370},
              {"c.1340-c.1360", 1330, 1370},
              {"~1350", 1340, 1360},
              {"about 5 BC", -15, 6}});
}

TEST(ReadDate, open_ends) {
  expect_all({{"AD 270+", 270, kOpen},
              {"post-270", 270, kOpen},
              {"after AD 270", 270, kOpen},
              {"pre-410", kOpen, 409},
              {"before 410", kOpen, 409},
              {"<410", kOpen, 409},
              {"270 or later", 270, kOpen},
              {"410 or earlier", kOpen, 410},
              {"C2+", 101, kOpen},
              {"post C2", 200, kOpen},
              {"before C3", kOpen, 200},
              {"from 1720", 1720, kOpen},
              {"until 1720", kOpen, 1720},
              {"post-c.270", 260, kOpen},
              {"before AD 1", kOpen, -1}});
}

TEST(ReadDate, doubt) {
  const auto certainty = [](std::string_view text) { return read_date(text)->certainty; };
  for (const char* text : {"?C13", "C13?", "prob. C13", "probably C13", "C13 (?)", "C13 (prob.)", "C2?-C3"}) {
    EXPECT_EQ(certainty(text), Certainty::probable) << text;
  }
  for (const char* text : {"poss. C13", "possibly late 13th", "perhaps 120-250?"}) {
    EXPECT_EQ(certainty(text), Certainty::possible) << text;
  }
  EXPECT_EQ(certainty("C13"), Certainty::sure);
  expect_all({{"?C13", 1201, 1300}, {"C13?", 1201, 1300}, {"poss. 270+", 270, kOpen}, {"C2?-C3", 101, 300}});
}

TEST(ReadDate, undated) {
  for (const char* text : {"nd", "n.d.", "undated", "?", "ND", "no date", "unknown", "n/d"}) {
    const auto reading = read_date(text);
    ASSERT_TRUE(reading) << text;
    EXPECT_TRUE(reading->range.empty()) << text;
  }
}

TEST(ReadDate, year_nought_is_1_bc_with_a_warning) {
  const auto reading = read_date("0-50");
  EXPECT_EQ(shown(reading->range.earliest), -1);
  EXPECT_THAT(reading->warnings, testing::ElementsAre("there is no year 0; it was read as 1 BC"));
}

TEST(ReadDate, warns_where_the_writing_leaves_a_doubt) {
  expect_all({{"100 BC-40", -100, 40}, {"350 bc", -350, -350}, {"BC 40-100", -40, 100}});
  EXPECT_THAT(read_date("100 BC-40")->warnings, SizeIs(1));
  EXPECT_THAT(read_date("BC 40-100")->warnings, SizeIs(1));
  EXPECT_THAT(read_date("350 bc")->warnings, SizeIs(1));
  EXPECT_THAT(read_date("20503")->warnings, SizeIs(1));
  EXPECT_THAT(read_date("13-14")->warnings, SizeIs(1));
  EXPECT_THAT(read_date("AD 13-14")->warnings, IsEmpty());
  EXPECT_THAT(read_date("BC 100-40")->warnings, IsEmpty());
  EXPECT_THAT(read_date("350 BC")->warnings, IsEmpty());
}

TEST(ReadDate, says_what_it_took_each_part_for) {
  EXPECT_THAT(read_date("L13-E14")->because,
              testing::ElementsAre("late 13th century: 1268-1300", "early 14th century: 1301-1333"));
  EXPECT_THAT(read_date("c. 1120-35")->because,
              testing::ElementsAre("1120-35 is short for 1120-1135", "circa: 10 years either side"));
  EXPECT_THAT(read_date("1st half C1 BC")->because, testing::ElementsAre("1st half of the 1st century BC: 100-51 BC"));
  EXPECT_TRUE(read_date("c. 1350")->circa);
  EXPECT_EQ(read_date("1350")->style, "default");
}

TEST(DateStyles, read_as_their_authorities_publish) {
  // Cataloging Cultural Objects 4.2.3.2: ca. 1610 is 1605-1615; 12-9 BCE is -12 to -9.
  expect_all({{"c.1610", 1605, 1615}, {"12-9 BCE", -12, -9}}, *date_style_named("cco"));
  // Object ID, guide to dates: circa is 10 years either side, before and after reach a hundred.
  expect_all({{"c.1610", 1600, 1620}, {"after 1610", 1610, 1710}}, *date_style_named("object-id"));
  // University of California San Diego, image description guide.
  expect_all({{"16th c.", 1500, 1599},
              {"early 19th", 1800, 1825},
              {"mid 13th", 1235, 1265},
              {"c. 43-60", 43, 60},
              {"c. 1610", 1605, 1615}},
             *date_style_named("ucsd"));
  // No source: calculated as the mirror of the above, and the year that is not there left out.
  expect_all({{"C1", 1, 99}, {"C1 BC", -99, -1}, {"C2 BC", -199, -100}}, *date_style_named("ucsd"));
  // From memory: pottery reports that take the middle of a century as 30 to 70.
  expect_all({{"M13", 1230, 1270}}, *date_style_named("mid-30-70"));
}

TEST(DateStyles, are_found_by_name_or_the_nearest_is_told) {
  EXPECT_EQ(date_style_named(" UCSD ")->name, "ucsd");
  const auto missing = date_style_named("defualt");
  ASSERT_FALSE(missing);
  EXPECT_EQ(missing.error().code, "unknown_date_style");
  EXPECT_THAT(missing.error().hint, HasSubstr("did you mean \"default\"?"));
  for (const DateStyle& style : date_styles()) EXPECT_FALSE(style.source.empty()) << style.name;
}

}  // namespace
}  // namespace sherd::notation
