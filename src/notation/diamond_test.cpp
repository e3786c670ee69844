#include "notation/diamond.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <rapidcheck.h>

#include <algorithm>

#include "base/text.h"
#include "notation/mark_testing.h"

namespace sherd::notation {
namespace {

using testing::Contains;
using testing::HasSubstr;

Result<MarkReading> read(std::string_view text) { return read_diamond(text, test_diamonds()); }

/// The days that a diamond may stand for; "" for one that is not read whole.
std::vector<std::string> days(std::string_view text) {
  const auto reading = read(text);
  if (!reading) return {reading.error().code, reading.error().message};
  std::vector<std::string> out;
  for (const MarkAnswer& one : reading->answers) {
    if (one.ruled_out.empty()) out.push_back(one.on ? iso_text(*one.on) : "");
  }
  return out;
}

using Days = std::vector<std::string>;

// Dates as published: 18 February 1862 (class XII) stevengraph-silks.com; 9 November 1855 (metal) a page of unnamed
// author; 7 April 1857 (ceramics) phoenixmasonry.org; 2 December 1864, 19 October 1871, 6 July 1871, 28 November 1879
// and 1 August 1883 murrayam.supanet.com and oldcopper.org. The letters of the corners were not transcribed from the
// pots: they are calculated from the tables, so that these test the tables' consistency and the corners' order.
TEST(Diamond, the_worked_examples_read_as_published) {
  EXPECT_EQ(days("diamond top=O left=G right=18 bottom=5 class=XII"), Days{"1862-02-18"});
  EXPECT_EQ(days("diamond top=E left=K right=9 class=I"), Days{"1855-11-09"});
  EXPECT_EQ(days("diamond top=K left=H right=7 class=IV"), Days{"1857-04-07"});
  EXPECT_EQ(days("diamond top=N left=A right=2"), Days{"1864-12-02"});
  EXPECT_EQ(days("diamond top=19 left=3 right=A bottom=B"), Days{"1871-10-19"});
  EXPECT_EQ(days("diamond top=6 right=A bottom=I"), Days{"1871-07-06"});
  EXPECT_EQ(days("diamond top=28 right=Y bottom=K"), Days{"1879-11-28"});
  EXPECT_EQ(days("diamond top=1 right=K bottom=R"), Days{"1883-08-01"});
}

TEST(Diamond, every_day_of_both_series_reads_back_as_itself) {
  const DiamondTables& tables = test_diamonds();
  int checked = 0;
  for (const DiamondYear& year : tables.years) {
    for (const DiamondMonth& month : tables.months) {
      for (int day = 1; day <= days_of_month(year.year, month.month); ++day) {
        const std::string text =
            year.series == 1 ? fmt::format("diamond top={} left={} right={} bottom=7", year.letter, month.letter, day)
                             : fmt::format("diamond top={} left=7 right={} bottom={}", day, year.letter, month.letter);
        EXPECT_THAT(days(text), Contains(iso_text({year.year, month.month, day}))) << text;
        ++checked;
      }
    }
  }
  EXPECT_EQ(tables.years.size(), 42U);       // 1842-67 and 1868-83, a letter each
  EXPECT_EQ(checked, 42 * (365 + 31) + 10);  // January twice, for C and O; leap years 1844 to 1880
}

TEST(Diamond, gives_no_more_than_a_terminus_post_quem) {
  const auto reading = read("diamond top=O left=G right=18");
  ASSERT_TRUE(reading);
  EXPECT_EQ(reading->range.earliest, Year{1862});
  EXPECT_EQ(reading->range.latest, std::nullopt);
  EXPECT_EQ(reading->certainty, Certainty::sure);
  EXPECT_THAT(reading->not_said, Contains(HasSubstr("earliest for the design")));
  EXPECT_THAT(reading->because, Contains(HasSubstr("not series 2 (1868-83): the top corner has the letter O")));
}

// phoenixmasonry.org: R stood for September from 1 to 19 September 1857, K for December in 1860.
TEST(Diamond, known_exceptions_stand_beside_the_rule) {
  EXPECT_EQ(days("diamond top=K left=R right=5"), (Days{"1857-08-05", "1857-09-05"}));
  EXPECT_EQ(days("diamond top=K left=R right=19"), (Days{"1857-08-19", "1857-09-19"}));
  EXPECT_EQ(days("diamond top=K left=R right=20"), Days{"1857-08-20"});
  EXPECT_EQ(days("diamond top=K left=D right=20"), Days{"1857-09-20"});
  EXPECT_EQ(days("diamond top=Z left=K right=31"), Days{"1860-12-31"});
  EXPECT_EQ(days("diamond top=Z left=K right=3"), (Days{"1860-11-03", "1860-12-03"}));
}

// Godden, from memory: W and G from 1 to 6 March 1878.
TEST(Diamond, the_w_of_the_second_series_is_six_days_of_march_1878) {
  EXPECT_EQ(days("diamond top=6 right=W bottom=G"), Days{"1878-03-06"});
  EXPECT_EQ(days("diamond top=7 right=W bottom=G").front(), "impossible_mark");
  EXPECT_EQ(days("diamond top=3 right=W bottom=A").front(), "impossible_mark");
  EXPECT_THAT(read("diamond top=6 right=W bottom=G")->warnings, Contains(HasSubstr("from memory")));
  EXPECT_EQ(read("diamond right=W")->range.earliest, Year{1878});
}

// oldcopper.org has C and O for January; the other pages C alone.
TEST(Diamond, january_has_two_letters) {
  EXPECT_EQ(days("diamond top=A left=C right=4"), Days{"1845-01-04"});
  EXPECT_EQ(days("diamond top=A left=O right=4"), Days{"1845-01-04"});
}

TEST(Diamond, a_day_that_there_was_not_is_refused_with_the_reason) {
  EXPECT_EQ(read("diamond top=X left=H right=31").error().message,
            "cannot read the mark: diamond top=X left=H right=31\n"
            "                                                 ^ no day fits. series 1 (1842-67): year X, month H, day "
            "31: April "
            "1842 had no day 31; series 2 (1868-83): the top corner has the letter X, and there series 2 (1868-83) has "
            "the day");
  EXPECT_EQ(days("diamond top=A left=G right=29").front(), "impossible_mark");  // 1845
  EXPECT_EQ(days("diamond top=C left=G right=29"), Days{"1844-02-29"});
  EXPECT_EQ(days("diamond top=12 right=B bottom=A").front(), "impossible_mark");
  EXPECT_THAT(days("diamond top=12 right=B bottom=A").back(), HasSubstr("B is no letter of a year in series 2"));
  EXPECT_THAT(days("diamond top=X left=F right=3").back(), HasSubstr("F is no letter of a month; they are A, B, C, D"));
  EXPECT_EQ(days("diamond right=45").front(), "impossible_mark");
}

TEST(Diamond, where_the_corners_are_not_known_both_series_are_tried) {
  // X: 1842 or 1868, B: October (series 1: B is 1858, X no month).
  const auto reading = read("diamond X B 12 4 class IV");
  ASSERT_TRUE(reading);
  std::vector<std::string> possible;
  for (const MarkAnswer& one : reading->answers) {
    if (one.on) possible.push_back(iso_text(*one.on));
  }
  EXPECT_THAT(possible, testing::UnorderedElementsAre("1842-10-12", "1842-10-04", "1868-10-12", "1868-10-04"));
  EXPECT_EQ(reading->range.earliest, Year{1842});
  EXPECT_EQ(reading->certainty, Certainty::possible);
  EXPECT_THAT(reading->because, Contains(HasSubstr("X is no letter of a month")));
  EXPECT_THAT(reading->because, Contains(HasSubstr("B is no letter of a year in series 2")));
}

TEST(Diamond, one_known_corner_settles_the_series) {
  EXPECT_EQ(days("diamond top=12 X B 4"), Days{"1868-10-12"});
  EXPECT_EQ(days("diamond right=12 X B 4"), Days{"1842-10-12"});
  EXPECT_EQ(days("diamond series=2 X B 12 40"), (Days{"1868-10-12"}));
}

TEST(Diamond, reads_what_is_legible_of_it) {
  const auto reading = read("diamond top=X left=? right=? bottom=?");
  ASSERT_TRUE(reading);
  EXPECT_EQ(reading->reads, "design registered in 1842, series 1 (1842-67)");
  EXPECT_EQ(read("diamond right=12 left=B")->range.earliest, Year{1842});
  EXPECT_THAT(read("diamond top=12 bottom=B")->reads, HasSubstr("12 October in a year of series 2"));
  EXPECT_THAT(read("diamond class=IV")->reads, HasSubstr("ceramics"));
}

TEST(Diamond, the_class_is_told_and_doubted_where_it_is_not_that_of_pottery) {
  EXPECT_TRUE(read("diamond top=X class=IV")->warnings.empty());
  EXPECT_TRUE(read("diamond top=X class 4")->warnings.empty());
  EXPECT_THAT(read("diamond top=X class=III")->warnings,
              Contains("class III: glass; on pottery, look at the numeral again"));
  EXPECT_THAT(read("diamond top=X class XII ii")->reads, HasSubstr("damasks"));
  EXPECT_EQ(read("diamond top=X class=XIV").error().code, "unreadable_mark");
}

TEST(Diamond, what_is_no_diamond_is_refused_with_a_caret) {
  EXPECT_EQ(read("diamond top=XY").error().message,
            "cannot read the mark: diamond top=XY\n"
            "                                  ^ a corner holds one letter or one number, or ? where it is illegible");
  EXPECT_THAT(read("diamond A B C").error().message, HasSubstr("two letters"));
  EXPECT_THAT(read("diamond 1 2 3").error().message, HasSubstr("two numbers"));
  EXPECT_THAT(read("diamond top=0").error().message, HasSubstr("the letter O"));
  EXPECT_THAT(read("diamond top=A top=B").error().message, HasSubstr("named twice"));
  EXPECT_THAT(read("diamond ? ?").error().message, HasSubstr("nothing of this diamond was read"));
}

TEST(Diamond, any_pieces_give_an_answer_or_a_sentence) {
  const std::vector<std::string> pieces{"diamond", "top", "left", "right", "bottom", "class", "=", "A",
                                        "X",       "W",   "G",    "12",    "31",     "0",     "?", "IV",
                                        "XII",     "i",   " ",    ",",     "series", "2"};
  rc::check("pieces of diamonds", [&] {
    std::string text = "diamond ";
    for (const std::string& piece : *rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(pieces)))
      text += piece + " ";
    const auto reading = read(text);
    if (reading) {
      RC_ASSERT(!reading->answers.empty() && reading->answers.front().ruled_out.empty());
      RC_ASSERT(reading->range.earliest.has_value() && !reading->range.latest.has_value());
      RC_ASSERT(reading->range.earliest->value >= 1842 && reading->range.earliest->value <= 1883);
    } else {
      RC_ASSERT(reading.error().message.find('^') != std::string::npos);
    }
  });
}

}  // namespace
}  // namespace sherd::notation
