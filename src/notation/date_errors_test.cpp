#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <string>

#include "base/text.h"
#include "notation/date.h"

namespace sherd::notation {
namespace {

using testing::HasSubstr;

std::string message_of(std::string_view text) {
  const auto reading = read_date(text);
  EXPECT_FALSE(reading) << text;
  if (reading) return {};
  EXPECT_EQ(reading.error().code, "unreadable_date") << text;
  EXPECT_THAT(reading.error().hint, HasSubstr("L13-E14"));
  return reading.error().message;
}

TEST(UnreadableDate, shows_the_text_and_a_caret_under_the_place) {
  EXPECT_EQ(message_of("12o-250"),
            "cannot read the date: 12o-250\n"
            "                        ^ after a date there may stand a dash, to, +, ? or an era");
  EXPECT_EQ(message_of("L13-X14"),
            "cannot read the date: L13-X14\n"
            "                          ^ a year or a century is wanted here");
}

TEST(UnreadableDate, counts_characters_and_not_bytes) {
  EXPECT_EQ(message_of("L13\u2013q"),
            "cannot read the date: L13\u2013q\n"
            "                          ^ a year or a century is wanted here");
}

TEST(UnreadableDate, says_what_is_wrong) {
  EXPECT_THAT(message_of(""), HasSubstr("there is nothing here"));
  EXPECT_THAT(message_of("250-120"), HasSubstr("ends here before it starts"));
  EXPECT_THAT(message_of("1135-20"), HasSubstr("ends here before it starts"));
  EXPECT_THAT(message_of("C3-C2"), HasSubstr("ends here before it starts"));
  EXPECT_THAT(message_of("20-50 BC"), HasSubstr("ends here before it starts"));
  EXPECT_THAT(message_of("50 AD-20 BC"), HasSubstr("ends here before it starts"));
  EXPECT_THAT(message_of("c. 13"), HasSubstr("this may be a century or circa and a year"));
  EXPECT_THAT(message_of("C22 BC"), HasSubstr("this may be a century or circa and a year: write 22nd century BC"));
  EXPECT_THAT(message_of("early 1350"), HasSubstr("only a century has parts"));
  EXPECT_THAT(message_of("early"), HasSubstr("a year or a century is wanted here"));
  EXPECT_THAT(message_of("late - early"), HasSubstr("a year or a century is wanted here"));
  EXPECT_THAT(message_of("12345678"), HasSubstr("at most seven digits"));
  EXPECT_THAT(message_of("C0"), HasSubstr("centuries run from 1 to 99"));
  EXPECT_THAT(message_of("2450 bp"), HasSubstr("radiocarbon"));
  EXPECT_THAT(message_of("120-250+"), HasSubstr("only a single date can be open"));
  EXPECT_THAT(message_of("between 120"), HasSubstr("between wants"));
  EXPECT_THAT(message_of("120-250-300"), HasSubstr("nothing may follow here"));
}

TEST(UnreadableDate, what_is_not_plain_is_refused_and_never_guessed) {
  for (const char* text : {"Hadrianic",
                           "Medieval",
                           "LIA/ER",
                           "2450 +- 65",
                           "1500s",
                           "c. 13",
                           "1,2345",
                           "early 1530s",
                           "30s",
                           "fl. 1760",
                           "early 2nd millennium BC",
                           "120/..",
                           "12~",
                           "12/05/1987x",
                           "C13 jug",
                           "-",
                           "--",
                           "5th quarter C2",
                           "3rd half C2",
                           "post-270-300"}) {
    message_of(text);
  }
}

TEST(UnreadableDate, of_great_length_or_broken_text_is_shown_short) {
  const std::string message = message_of(std::string(8'000'000, '1'));
  EXPECT_LT(message.size(), 300U);
  EXPECT_THAT(message, HasSubstr("too long for a date"));
  EXPECT_THAT(message_of("C\xFF"), HasSubstr("not UTF-8"));
  EXPECT_EQ(message_of("12\n\no").find('\n'), message_of("12  o").find('\n'));
}

TEST(ReadDate, reads_every_range_back_as_it_was_written_out) {
  EXPECT_TRUE(rc::check([] {
    const auto year = rc::gen::inRange<std::int64_t>(-12000, 2100);
    YearRange range;
    if (*rc::gen::inRange(0, 6) > 0) range.earliest = Year{*year};
    if (*rc::gen::inRange(0, 6) > 0) range.latest = Year{*year};
    if (range.closed() && *range.latest < *range.earliest) std::swap(range.earliest, range.latest);
    const auto reading = read_date(range_text(range));
    if (!reading) RC_FAIL(reading.error().message);
    RC_ASSERT(reading->range == range);
    RC_ASSERT(reading->certainty == Certainty::sure);
    const bool small = range.earliest.value_or(Year{1}).value >= 1 && range.earliest.value_or(Year{1}).value <= 21 &&
                       range.latest.value_or(Year{1}).value >= 1 && range.latest.value_or(Year{1}).value <= 21;
    RC_ASSERT(reading->warnings.empty() || small);
  }));
}

TEST(ReadDate, never_fails_but_with_a_sentence_whatever_the_text) {
  EXPECT_TRUE(rc::check([] {
    const auto piece = rc::gen::element<std::string>("C", "c", ".", "13", "2", "nd", " ", "-", "/", "BC", "AD", "L",
                                                     "mid", "?", "(", ")", "half", "of", "to", "post", "+", "0", "1120",
                                                     "\u2013", "\xC3", "q", "early", "or later", "~", "x", "century");
    std::string text;
    for (const std::string& one : *rc::gen::container<std::vector<std::string>>(piece)) text += one;
    const auto reading = read_date(text);
    if (reading) {
      const YearRange& range = reading->range;
      RC_ASSERT(!range.closed() || *range.earliest <= *range.latest);
    } else {
      RC_ASSERT(reading.error().message.find('^') != std::string::npos);
      RC_ASSERT(is_utf8(reading.error().message));
    }
  }));
}

}  // namespace
}  // namespace sherd::notation
