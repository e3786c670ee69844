#include "notation/mark.h"

#include <gmock/gmock.h>
#include <rapidcheck.h>

#include "notation/mark_testing.h"

namespace sherd::notation {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

constexpr std::optional<int> kOpen;

Result<MarkReading> read(std::string_view text) { return read_mark(text, test_diamonds(), test_marks()); }

void expect_years(const std::string& text, std::optional<int> earliest, std::optional<int> latest) {
  const auto reading = read(text);
  ASSERT_TRUE(reading) << text << "\n" << reading.error().message;
  const auto year = [](std::optional<int> number) { return number ? std::optional(Year{*number}) : std::nullopt; };
  EXPECT_EQ(reading->range, (YearRange{year(earliest), year(latest)})) << text << ": " << reading->reads;
}

// aw-antiques-collectibles.co.uk, kovels.com, antiquepeek.com, worthpoint.com and others; each row of mark_rules.csv
// names its own.
TEST(Mark, words_of_origin_and_trade) {
  expect_years("England", 1891, kOpen);
  expect_years("ENGLAND.", 1891, kOpen);
  expect_years("Made in England", 1914, kOpen);
  expect_years("Ltd", 1860, kOpen);
  expect_years("J. Meir & Co. Ltd.", 1860, kOpen);
  expect_years("Trade Mark", 1862, kOpen);
  expect_years("Bone China", 1900, kOpen);
  expect_years("Nippon", 1891, 1921);
  expect_years("Japan", 1921, kOpen);
  expect_years("Made in Occupied Japan", 1945, 1952);
  expect_years("Czechoslovakia", 1921, kOpen);
  expect_years("Cechoslovakia", 1918, 1920);
  expect_years("Made in West Germany", 1949, 1990);
  expect_years("Made in Germany", 1887, kOpen);
  expect_years("Royal Arms", 1800, kOpen);
}

// abeerglasscollector.com: VR 1879-1901, ER 1901-10, GR 1910-52, EIIR 1953-64, crown and number from 1964.
TEST(Mark, uniform_verification_stamps) {
  expect_years("VR 49", 1879, 1901);
  expect_years("V.R. 49", 1879, 1901);
  expect_years("V R 49", 1879, 1901);
  expect_years("crown over VR 49", 1879, 1901);
  expect_years("49 VR crowned", 1879, 1901);
  expect_years("ER 5", 1901, 1910);
  expect_years("crown over GR 19", 1910, 1952);
  expect_years("G VI R 19", 1936, 1952);  // the reign, from memory
  expect_years("EIIR 490", 1953, 1964);
  expect_years("crown over 392", 1964, kOpen);
}

// pewterbank.com; Ricketts 1996 as quoted by a seller.
TEST(Mark, verification_numbers_name_their_district) {
  EXPECT_THAT(read("VR 49")->because, Contains(HasSubstr("number 49: Appleby, Westmorland")));
  EXPECT_THAT(read("GR 19")->because, Contains(HasSubstr("Derbyshire")));
  EXPECT_THAT(read("VR 77")->warnings, Contains(HasSubstr("Ricketts & Douglas 1996")));
}

// Historic Deerfield HD 94.016.4 after J. Horne: WR stayed the official cipher until 1825.
TEST(Mark, wr_outlived_its_king_and_says_so) {
  expect_years("crowned WR", 1700, 1825);
  const auto reading = read("WR");
  EXPECT_THAT(reading->not_said, Contains(HasSubstr("does not mean William III")));
  EXPECT_THAT(reading->because, Contains(HasSubstr("1700-1792")));
  EXPECT_THAT(reading->warnings, Contains(HasSubstr("William IV")));
  expect_years("AR", 1702, 1714);
}

TEST(Mark, a_cipher_of_several_kings_gives_them_all) {
  const auto reading = read("GR");
  EXPECT_EQ(reading->range, (YearRange{Year{1714}, Year{1952}}));
  EXPECT_THAT(reading->reads, HasSubstr("George I to George IV"));
  EXPECT_THAT(reading->reads, HasSubstr("George V and George VI"));
}

// scottishantiques.com, tankard 33973: standard of 1826; older vessels were stamped afterwards.
TEST(Mark, a_stamp_dates_its_verification_and_not_the_vessel) {
  const auto stamp = read("Imperial pint");
  ASSERT_TRUE(stamp);
  EXPECT_EQ(stamp->answers.front().dates, MarkDates::stamp);
  EXPECT_EQ(stamp->range.earliest, Year{1826});
  EXPECT_THAT(stamp->warnings, Contains(HasSubstr("the vessel may be older")));
  const auto fired = read("Imperial pint under the glaze");
  EXPECT_EQ(fired->answers.front().dates, MarkDates::vessel);
  EXPECT_THAT(fired->warnings, IsEmpty());
  // A stamp beside a word of origin narrows the end and not the beginning.
  expect_years("Trade Mark VR 49", 1862, 1901);
}

TEST(Mark, design_numbers_with_their_year) {
  expect_years("Rd 821265", 1937, kOpen);
  expect_years("Rd No 821265", 1937, kOpen);
  expect_years("Rd. No. 821,265", 1937, kOpen);
  expect_years("Regd No.12345", 1884, kOpen);
  expect_years("Rd No", 1884, kOpen);
  const auto reading = read("Rd No 540000");
  ASSERT_EQ(reading->answers.size(), 2U);
  EXPECT_EQ(reading->answers[0].known, Known::read);
  EXPECT_EQ(reading->answers[1].known, Known::memory);  // 1908 by the approximate list alone
  EXPECT_THAT(reading->warnings, Contains("the tables of design numbers differ here"));
  EXPECT_THAT(reading->not_said, Contains(HasSubstr("earliest for the design")));
  EXPECT_THAT(read("Rd 0").error().message, HasSubstr("design numbers begin with 1"));
}

// The years' first numbers: a.whitton.tripod.com, web page 17: 1889 began with 116,648, 1937 with 817,293, 1938 with
// 825,231.
TEST(Mark, a_design_number_with_digits_lost_has_the_years_of_all_that_it_may_be) {
  expect_years("Rd No 8212_5", 1937, kOpen);
  expect_years("Rd No 821,2_5", 1937, kOpen);
  expect_years("Rd No 82?265", 1937, kOpen);
  expect_years("Rd No _21265", 1889, kOpen);
  const auto reading = read("Rd No 8212_5");
  ASSERT_EQ(reading->answers.size(), 1U);
  EXPECT_THAT(reading->answers.front().reads, HasSubstr("821,205 to 821,295, registered in 1937"));
  expect_years("Rd No 821265?", 1937, kOpen);   // a doubt, no digit
  expect_years("Rd No 12345,67", 1884, kOpen);  // a comma, but none of thousands
  EXPECT_THAT(read("Rd No 82126[...]").error().message, HasSubstr("how many digits are lost is not said"));
}

TEST(Mark, several_marks_narrow_each_other) {
  expect_years("Trade Mark, Ltd, England, Rd No 351300", 1900, kOpen);
  expect_years("Nippon Rd No 351300", 1900, 1921);
  const auto conflict = read("Nippon Rd No 821265");
  EXPECT_TRUE(conflict->range.empty());
  EXPECT_THAT(conflict->warnings, Contains("the marks exclude each other: not before 1937, not after 1921"));
}

TEST(Mark, the_absence_of_a_country_name_dates_nothing) {
  const auto none = read("no country name");
  ASSERT_TRUE(none);
  EXPECT_TRUE(none->range.empty());
  EXPECT_THAT(none->not_said, Contains(HasSubstr("does not make a piece earlier")));
  EXPECT_THAT(read("England")->not_said, Contains(HasSubstr("does not make a piece earlier")));
}

TEST(Mark, exceptions_and_other_sources_stand_beside_the_rule) {
  const auto england = read("England");
  EXPECT_EQ(england->certainty, Certainty::probable);
  EXPECT_THAT(england->warnings, Contains(HasSubstr("Powell & Bishop")));
  std::vector<bool> likely;
  for (const MarkAnswer& one : england->answers) {
    EXPECT_FALSE(one.source.empty());
    likely.push_back(one.likely);
  }
  EXPECT_EQ(likely, (std::vector{true, false, false, false}));
  EXPECT_EQ(read("Made in England")->certainty, Certainty::possible);
  EXPECT_THAT(read("dishwasher safe")->warnings, Contains(HasSubstr("from memory")));
}

TEST(Mark, says_what_it_did_not_read) {
  EXPECT_THAT(read("Turner, England")->warnings, Contains("not read: Turner"));
  EXPECT_THAT(read("G. R. Turner England")->warnings, Contains(HasSubstr("not read: G. R. Turner")));
  EXPECT_THAT(read("England")->warnings, Not(Contains(HasSubstr("not read"))));
}

TEST(Mark, what_is_no_mark_is_refused_with_a_caret) {
  EXPECT_EQ(read("Nipon").error().message,
            "cannot read the mark: Nipon\n"
            "                      ^ no such mark is known; did you mean \"nippon\"?");
  EXPECT_EQ(read("821265").error().message,
            "cannot read the mark: 821265\n"
            "                      ^ a number alone is no mark; is it Rd No 821265");
  EXPECT_EQ(read("").error().code, "unreadable_mark");
  EXPECT_EQ(read(std::string(400, 'x')).error().code, "unreadable_mark");
  EXPECT_EQ(read("\xff\xfe").error().code, "unreadable_mark");
  EXPECT_EQ(read("diamond top=X left=H right=31").error().code, "impossible_mark");
}

TEST(Mark, every_wording_of_the_table_is_read) {
  for (const MarkWording& wording : test_marks().wordings) {
    if (wording.mark == "fired_in") continue;
    EXPECT_TRUE(read(wording.words)) << wording.words;
  }
}

TEST(Mark, any_words_give_an_answer_or_a_sentence) {
  const std::vector<std::string> pieces{"England", "Ltd",    "crown", "VR", "G",        "R",      "49",   "Rd",
                                        "No",      "821265", "over",  "&",  "Imperial", "1/2",    "pint", "royal",
                                        "cipher",  ",",      ".",     "in", "Made",     "\u00BD", "fired"};
  rc::check("pieces of marks", [&] {
    std::string text;
    for (const std::string& piece : *rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(pieces)))
      text += piece + (*rc::gen::arbitrary<bool>() ? " " : "");
    const auto reading = read(text);
    if (!reading) {
      RC_ASSERT(reading.error().message.find('^') != std::string::npos);
    } else if (reading->range.closed()) {
      RC_ASSERT(!(*reading->range.latest < *reading->range.earliest));
    }
  });
}

TEST(MarkTables, are_refused_where_they_do_not_fit) {
  CsvRows wordings = reference_rows("mark_wordings");
  wordings.push_back({"something", "unheard_of"});
  const auto tables = mark_tables({reference_rows("mark_rules"), wordings, reference_rows("mark_cautions"),
                                   reference_rows("verification_numbers"), reference_rows("registered_numbers")});
  ASSERT_FALSE(tables);
  EXPECT_THAT(tables.error().message, HasSubstr("column mark: \"unheard_of\" has no rule"));
}

}  // namespace
}  // namespace sherd::notation
