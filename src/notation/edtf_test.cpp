#include "notation/edtf.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "base/text.h"
#include "notation/testing_dates.h"

namespace sherd::notation {
namespace {

using testing::Contains;
using testing::HasSubstr;

void expect_edtf(const std::vector<DateCase>& cases) {
  expect_dates(cases, [](const std::string& text) { return read_edtf(text); });
}

int level_of(const std::string& text) {
  const auto reading = read_edtf(text);
  EXPECT_TRUE(reading) << text << "\n" << (reading ? "" : reading.error().message);
  return reading ? reading->because.front().back() - '0' : -1;
}

std::string why(const std::string& text) {
  const auto reading = read_edtf(text);
  EXPECT_FALSE(reading) << text;
  return reading ? std::string{} : reading.error().message;
}

// Every example of the Extended Date/Time Format, Library of Congress, 4 February 2019, under its heading there. The
// years are ours: the format is kept to the year.

TEST(Edtf, level_0) {
  expect_edtf({{"1985-04-12", 1985, 1985},
               {"1985-04", 1985, 1985},
               {"1985", 1985, 1985},
               {"1985-04-12T23:20:30", 1985, 1985},
               {"1985-04-12T23:20:30Z", 1985, 1985},
               {"1985-04-12T23:20:30-04", 1985, 1985},
               {"1985-04-12T23:20:30+04:30", 1985, 1985},
               {"1964/2008", 1964, 2008},
               {"2004-06/2006-08", 2004, 2006},
               {"2004-02-01/2005-02-08", 2004, 2005},
               {"2004-02-01/2005-02", 2004, 2005},
               {"2004-02-01/2005", 2004, 2005},
               {"2005/2006-02", 2005, 2006}});
  for (const char* text : {"1985-04-12", "1985", "1985-04-12T23:20:30Z", "2004-02-01/2005"})
    EXPECT_EQ(level_of(text), 0);
}

TEST(Edtf, level_1) {
  expect_edtf({{"Y170000002", 170000002, 170000002},
               {"Y-170000002", -170000003, -170000003},
               {"2001-21", 2001, 2001},
               {"1984?", 1984, 1984},
               {"2004-06~", 2004, 2004},
               {"2004-06-11%", 2004, 2004},
               {"201X", 2010, 2019},
               {"20XX", 2000, 2099},
               {"2004-XX", 2004, 2004},
               {"1985-04-XX", 1985, 1985},
               {"1985-XX-XX", 1985, 1985},
               {"1985-04-12/..", 1985, kOpenEnd},
               {"1985-04/..", 1985, kOpenEnd},
               {"1985/..", 1985, kOpenEnd},
               {"../1985-04-12", kOpenEnd, 1985},
               {"../1985-04", kOpenEnd, 1985},
               {"../1985", kOpenEnd, 1985},
               {"1985-04-12/", 1985, kOpenEnd},
               {"1985-04/", 1985, kOpenEnd},
               {"1985/", 1985, kOpenEnd},
               {"/1985-04-12", kOpenEnd, 1985},
               {"/1985-04", kOpenEnd, 1985},
               {"/1985", kOpenEnd, 1985},
               {"-1985", -1986, -1986}});
  for (const char* text :
       {"Y170000002", "2001-21", "1984?", "201X", "2004-XX", "1985-XX-XX", "1985/..", "/1985", "-1985"}) {
    EXPECT_EQ(level_of(text), 1) << text;
  }
}

TEST(Edtf, level_2) {
  expect_edtf({{"Y-17E7", -170000001, -170000001},
               {"1950S2", 1900, 1999},
               {"Y171010000S3", 171000000, 171999999},
               {"Y3388E2S3", 338000, 338999},
               {"2001-34", 2001, 2001},
               {"[1667,1668,1670..1672]", 1667, 1672},
               {"[..1760-12-03]", kOpenEnd, 1760},
               {"[1760-12..]", 1760, kOpenEnd},
               {"[1760-01,1760-02,1760-12..]", 1760, kOpenEnd},
               {"[1667,1760-12]", 1667, 1760},
               {"[..1984]", kOpenEnd, 1984},
               {"{1667,1668,1670..1672}", 1667, 1672},
               {"{1960,1961-12}", 1960, 1961},
               {"{..1984}", kOpenEnd, 1984},
               {"2004-06~-11", 2004, 2004},
               {"2004?-06-11", 2004, 2004},
               {"?2004-06-~11", 2004, 2004},
               {"2004-%06-11", 2004, 2004},
               {"156X-12-25", 1560, 1569},
               {"15XX-12-25", 1500, 1599},
               {"XXXX-12-XX", kOpenEnd, kOpenEnd},
               {"1XXX-XX", 1000, 1999},
               {"1XXX-12", 1000, 1999},
               {"1984-1X", 1984, 1984},
               {"2004-06-~01/2004-06-~20", 2004, 2004},
               {"2004-06-XX/2004-07-03", 2004, 2004}});
  for (const char* text :
       {"Y-17E7", "1950S2", "2001-34", "[..1984]", "2004-06~-11", "2004?-06-11", "?2004-06-~11", "2004-%06-11",
        "156X-12-25", "XXXX-12-XX", "1XXX-12", "1984-1X", "2004-06-~01/2004-06-~20"}) {
    EXPECT_EQ(level_of(text), 2) << text;
  }
}

TEST(Edtf, doubt_and_vagueness_hold_for_the_year_where_the_mark_reaches_it) {
  const auto marks = [](const char* text) {
    const auto reading = read_edtf(text);
    return std::pair(reading->certainty != Certainty::sure, reading->circa);
  };
  EXPECT_EQ(marks("1984?"), std::pair(true, false));
  EXPECT_EQ(marks("2004-06~"), std::pair(false, true));
  EXPECT_EQ(marks("2004-06-11%"), std::pair(true, true));
  EXPECT_EQ(marks("2004-06~-11"), std::pair(false, true));  // to the right: it and all to its left
  EXPECT_EQ(marks("2004?-06-11"), std::pair(true, false));
  EXPECT_EQ(marks("?2004-06-~11"), std::pair(true, false));  // to the left: it alone
  EXPECT_EQ(marks("2004-%06-11"), std::pair(false, false));
}

TEST(Edtf, says_what_it_took_each_mark_for) {
  EXPECT_THAT(read_edtf("1950S2")->because, Contains("some year of 1900-1999, estimated to be 1950"));
  EXPECT_THAT(read_edtf("20XX")->because, Contains("20XX: some year of 2000-2099"));
  EXPECT_THAT(read_edtf("1985/")->because, Contains("the end is unknown"));
  EXPECT_THAT(read_edtf("../1985")->because, Contains("the start is open"));
  EXPECT_THAT(read_edtf("1985-04")->because, Contains(HasSubstr("month and day are left out")));
  EXPECT_THAT(read_edtf("XXXX-12-XX")->because, Contains("XXXX: the year is not known"));
  EXPECT_THAT(read_edtf("[1667,1760-12]")->either,
              testing::ElementsAre(YearRange{Year{1667}, Year{1667}}, YearRange{Year{1760}, Year{1760}}));
}

TEST(Edtf, counts_1_bc_as_the_year_0000) {
  // ISO 8601-1: 0000 is the year before 0001.
  expect_edtf({{"0000", -1, -1}, {"-0011", -12, -12}, {"-0119/-0099", -120, -100}, {"-05XX", -600, -501}});
}

TEST(Edtf, takes_the_century_and_the_decade_of_iso_8601) {
  // ISO 8601-1:2019, 4.3.4 and 4.3.3 (from memory): two digits are a century, three a decade.
  expect_edtf({{"12", 1200, 1299}, {"198", 1980, 1989}, {"12?", 1200, 1299}});
  EXPECT_FALSE(read_edtf("12", false));
}

TEST(UnreadableEdtf, is_told_with_a_caret) {
  EXPECT_EQ(why("1985-13"),
            "cannot read the date: 1985-13\n"
            "                           ^ months run from 01 to 12, seasons from 21 to 41");
  EXPECT_THAT(why("1985-02-30"), HasSubstr("no such day"));
  EXPECT_THAT(why("1985-02-29"), HasSubstr("no such day"));
  EXPECT_THAT(why("1984-02-3X"), HasSubstr("no such day"));
  EXPECT_THAT(why("Y1985"), HasSubstr("more than four digits"));
  EXPECT_THAT(why("Y17E70"), HasSubstr("too far away"));
  EXPECT_THAT(why("19855"), HasSubstr("four digits"));
  EXPECT_THAT(why("-0000"), HasSubstr("no year -0000"));
  EXPECT_THAT(why("1985/1984"), HasSubstr("ends here before it starts"));
  EXPECT_THAT(why("1985-04/1985-03"), HasSubstr("ends here before it starts"));
  EXPECT_THAT(why("../.."), HasSubstr("a date at one end at least"));
  EXPECT_THAT(why("1985/1990/1995"), HasSubstr("nothing that EDTF knows"));
  EXPECT_THAT(why("[1667, 1668]"), HasSubstr("four digits"));
  EXPECT_THAT(why("[1667,1668"), HasSubstr("closing bracket"));
  EXPECT_THAT(why("[1672..1670]"), HasSubstr("the run ends here"));
  EXPECT_THAT(why("1950S5"), HasSubstr("fewer digits"));
  EXPECT_THAT(why("1950S0"), HasSubstr("number of significant digits"));
  EXPECT_THAT(why("19XXS2"), HasSubstr("do not go together"));
  EXPECT_THAT(why("1985-04-12T25:00:00"), HasSubstr("written 23:20:30"));
  EXPECT_THAT(why("1985-4"), HasSubstr("two digits"));
  EXPECT_THAT(why("2001-21-01"), HasSubstr("nothing that EDTF knows"));
  EXPECT_THAT(why("C13"), HasSubstr("four digits"));
  EXPECT_THAT(why("1950S2~S"), HasSubstr("nothing that EDTF knows"));
}

TEST(Edtf, reads_back_what_it_wrote) {
  EXPECT_EQ(edtf_text({Year{120}, Year{250}}), "0120/0250");
  EXPECT_EQ(edtf_text({Year{-11}, Year{-11}}, Certainty::possible, true), "-0011%");
  EXPECT_EQ(edtf_text({Year{-170000002}, std::nullopt}), "Y-170000002/..");
  EXPECT_TRUE(rc::check([] {
    const auto year = rc::gen::oneOf(rc::gen::inRange<std::int64_t>(-12'000, 2'100),
                                     rc::gen::inRange<std::int64_t>(-400'000'000, 400'000'000));
    YearRange range;
    if (*rc::gen::inRange(0, 6) > 0) range.earliest = Year{*year};
    if (*rc::gen::inRange(0, 6) > 0) range.latest = Year{*year};
    if (range.closed() && *range.latest < *range.earliest) std::swap(range.earliest, range.latest);
    if (*rc::gen::inRange(0, 4) == 0) range.latest = range.earliest;
    const auto certainty = *rc::gen::element(Certainty::sure, Certainty::probable);
    const bool circa = *rc::gen::arbitrary<bool>() && !range.empty();
    const std::string text = edtf_text(range, certainty, circa);
    const auto reading = read_edtf(text);
    if (!reading) RC_FAIL(text + "\n" + reading.error().message);
    RC_ASSERT(reading->range == range);
    RC_ASSERT(range.empty() || reading->certainty == certainty);
    RC_ASSERT(reading->circa == circa);
    RC_ASSERT(range.empty() || edtf_text(reading->range, reading->certainty, reading->circa) == text);
  }));
}

TEST(Edtf, reads_back_a_choice_of_years) {
  EXPECT_TRUE(rc::check([] {
    const auto ranges = *rc::gen::container<std::vector<YearRange>>(rc::gen::map(
        rc::gen::pair(rc::gen::inRange<std::int64_t>(-12'000, 12'000), rc::gen::inRange<std::int64_t>(0, 200)),
        [](const auto& pair) { return YearRange{Year{pair.first}, Year{pair.first + pair.second}}; }));
    RC_PRE(ranges.size() > 1);
    const auto reading = read_edtf(edtf_one_of(ranges));
    if (!reading) {  // longer than a date is read
      RC_ASSERT(edtf_one_of(ranges).size() > 120U);
      return;
    }
    RC_ASSERT(reading->either == ranges);
  }));
}

TEST(Edtf, never_fails_but_with_a_sentence_whatever_the_text) {
  EXPECT_TRUE(rc::check([] {
    const auto piece =
        rc::gen::element<std::string>("1985", "X", "XX", "-", "/", "..", "04", "12", "?", "~", "%", "Y", "E7", "S2",
                                      "[", "]", "{", "}", ",", "T23:20:30", "Z", "0000", "\xC3", " ");
    std::string text;
    for (const std::string& one : *rc::gen::container<std::vector<std::string>>(piece)) text += one;
    const auto reading = read_edtf(text);
    if (reading) {
      RC_ASSERT(!reading->range.closed() || *reading->range.earliest <= *reading->range.latest);
    } else {
      RC_ASSERT(reading.error().message.find('^') != std::string::npos);
      RC_ASSERT(is_utf8(reading.error().message));
    }
  }));
}

}  // namespace
}  // namespace sherd::notation
