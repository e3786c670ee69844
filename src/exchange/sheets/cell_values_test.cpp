#include "exchange/sheets/cell_values.h"

#include <gtest/gtest.h>

namespace sherd::exchange {
namespace {

TEST(Number, keeps_what_a_spreadsheet_would_write_itself) {
  for (const char* text : {"0", "12", "-3", "14.5", "0.05", "-0.25", "123456789012345"})
    EXPECT_EQ(number_text(text).text, text);
}

TEST(Number, has_the_fifteen_digits_a_spreadsheet_shows) {
  EXPECT_EQ(number_text("12.0").text, "12");
  EXPECT_EQ(number_text("1.4999999999999999").text, "1.5");
  EXPECT_EQ(number_text("14.500000000000002").text, "14.5");
  EXPECT_EQ(number_text("0.30000000000000004").text, "0.3");
  EXPECT_EQ(number_text("3.1415926535897931").text, "3.14159265358979");
  EXPECT_EQ(number_text("99999999999999.96").text, "100000000000000");
  EXPECT_EQ(number_text("1.5E3").text, "1500");
  EXPECT_EQ(number_text("1E-3").text, "0.001");
  EXPECT_EQ(number_text("-2.50").text, "-2.5");
  EXPECT_EQ(number_text("-0").text, "0");
  EXPECT_EQ(number_text("007").text, "7");
  EXPECT_EQ(number_text("+5").text, "5");
}

TEST(Number, beyond_fifteen_places_has_an_exponent) {
  EXPECT_EQ(number_text("1e20").text, "1E+20");
  EXPECT_EQ(number_text("1234567890123456").text, "1.23456789012346E+15");
  EXPECT_EQ(number_text("1.5e-12").text, "1.5E-12");
}

TEST(Number, that_is_none_comes_back_with_a_problem) {
  for (const char* text : {"abc", "", "NaN", "inf", "1e999", "12,5", "0x10", "1.2.3", "--1"}) {
    EXPECT_EQ(number_text(text).text, text);
    EXPECT_EQ(number_text(text).problem, "the file stores no number here") << text;
  }
}

TEST(Percent, is_shown_as_a_percentage) {
  EXPECT_EQ(percent_text("0.45").text, "45 %");
  EXPECT_EQ(percent_text("0.145").text, "14.5 %");
  EXPECT_EQ(percent_text("1").text, "100 %");
  EXPECT_EQ(percent_text("0.07").text, "7 %");  // 0.07 * 100 is 7.000000000000001 in binary
  EXPECT_EQ(percent_text("1e308").problem, "the file stores no number here");
}

// ECMA-376, first edition, part 4, "Date Representation" (3.17.4.1; in later editions part 1, 18.17.4.1): the limits of
// both systems, the examples of DATEVALUE and the rule that 1900 is treated as a leap year.
TEST(Date, numbers_of_the_1900_system_are_those_of_the_standard) {
  EXPECT_EQ(date_text("1", false).text, "1900-01-01");
  EXPECT_EQ(date_text("3687", false).text, "1910-02-03");
  EXPECT_EQ(date_text("38749", false).text, "2006-02-01");
  EXPECT_EQ(date_text("2958465", false).text, "9999-12-31");
  for (const char* outside : {"2958466", "2958465.9999999", "0", "-1"})
    EXPECT_EQ(date_text(outside, false).problem, "the number lies outside the dates of a spreadsheet") << outside;
}

TEST(Date, numbers_of_the_1904_system_are_those_of_the_standard) {
  EXPECT_EQ(date_text("0", true).text, "1904-01-01");
  EXPECT_EQ(date_text("2225", true).text, "1910-02-03");
  EXPECT_EQ(date_text("37287", true).text, "2006-02-01");
  EXPECT_EQ(date_text("2957003", true).text, "9999-12-31");
}

TEST(Date, day_sixty_is_the_leap_day_that_never_was) {
  EXPECT_EQ(date_text("59", false).text, "1900-02-28");
  EXPECT_EQ(date_text("60", false).text, "1900-02-29");
  EXPECT_EQ(date_text("60", false).problem, "there was no 29 February 1900");
  EXPECT_EQ(date_text("61", false).text, "1900-03-01");
  EXPECT_EQ(date_text("61", false).problem, "");
  EXPECT_EQ(date_text("60", true).text, "1904-03-01");  // 1904 was a leap year
  EXPECT_EQ(date_text("60", true).problem, "");
}

TEST(Date, has_a_time_only_where_there_is_one) {
  EXPECT_EQ(date_text("45352", false).text, "2024-03-01");
  EXPECT_EQ(date_text("45352.25", false).text, "2024-03-01T06:00:00");
  EXPECT_EQ(date_text("45352.999999999", false).text, "2024-03-02");  // to the second
  EXPECT_EQ(date_text("0.5", false).text, "12:00:00");
  EXPECT_EQ(date_text("0.7854166666666667", false).text, "18:51:00");
}

TEST(Duration, runs_beyond_a_day) {
  EXPECT_EQ(duration_text("1.5").text, "36:00:00");
  EXPECT_EQ(duration_text("-0.5").text, "-12:00:00");
  EXPECT_EQ(duration_text("0.0034722222222222222").text, "00:05:00");
}

// ECMA-376 part 1, 18.8.30, table of built-in formats: 9 is 0%, 10 is 0.00%, 14 to 22 and 45, 47 dates and times, 46 is
// [h]:mm:ss.
TEST(NumberStyle, of_the_built_in_formats_follows_the_standard) {
  for (const int id : {0, 1, 2, 3, 4, 11, 12, 13, 37, 38, 39, 40, 48, 49})
    EXPECT_EQ(style_of_format(id, ""), NumberStyle::number) << id;
  for (const int id : {9, 10}) EXPECT_EQ(style_of_format(id, ""), NumberStyle::percent);
  for (const int id : {14, 15, 16, 17, 18, 19, 20, 21, 22, 45, 47})
    EXPECT_EQ(style_of_format(id, ""), NumberStyle::date) << id;
  EXPECT_EQ(style_of_format(46, ""), NumberStyle::duration);
}

TEST(NumberStyle, of_own_formats_is_read_from_the_code) {
  for (const char* code : {"yyyy\\-mm\\-dd", "d/m/yy", "[$-809]dd mmmm yyyy;@", "h:mm AM/PM", "mmm-yy",
                           "dd\".\"mm\".\"yyyy", "ss.000", "YYYY"})
    EXPECT_EQ(style_of_format(164, code), NumberStyle::date) << code;
  for (const char* code :
       {"0.00", "#,##0.0", "0.0\" mm\"", "0\\ \\d", "[Red]0.0;[Blue]-0.0", "General", "\"day \"0", "0.00E+00", "@",
        "# ?/?", "0_d", "*d0", "[$\xE2\x82\xAC-407] #,##0.00", "0;dd", "\"unclosed dd"})
    EXPECT_EQ(style_of_format(165, code), NumberStyle::number) << code;
  for (const char* code : {"0.0%", "0 %", "[Red]0%;-0%"})
    EXPECT_EQ(style_of_format(166, code), NumberStyle::percent) << code;
  EXPECT_EQ(style_of_format(167, "0\"%\""), NumberStyle::number);
  for (const char* code : {"[h]:mm", "[mm]:ss", "[SS]"})
    EXPECT_EQ(style_of_format(168, code), NumberStyle::duration) << code;
}

TEST(IsoDate, loses_a_midnight_and_idle_fractions) {
  EXPECT_EQ(tidy_iso_date("2024-03-01"), "2024-03-01");
  EXPECT_EQ(tidy_iso_date("2024-03-01T00:00:00"), "2024-03-01");
  EXPECT_EQ(tidy_iso_date("2024-03-01T10:20:30.000000000"), "2024-03-01T10:20:30");
  EXPECT_EQ(tidy_iso_date("2024-03-01T10:20:30.5"), "2024-03-01T10:20:30.5");
}

TEST(IsoDuration, is_read_as_hours_minutes_and_seconds) {
  // XML Schema part 2, 3.2.6.1: PnYnMnDTnHnMnS, the seconds with decimals, a leading minus.
  EXPECT_EQ(iso_duration_text("PT10H20M30S").text, "10:20:30");
  EXPECT_EQ(iso_duration_text("PT00H05M00.0000S").text, "00:05:00");
  EXPECT_EQ(iso_duration_text("P1DT12H").text, "36:00:00");
  EXPECT_EQ(iso_duration_text("-PT1H").text, "-01:00:00");
  for (const char* text : {"P1Y", "P1M", "10:20", "PT1X", "PT5", "", "PT", "1H", "P1H"}) {
    EXPECT_EQ(iso_duration_text(text).problem, "the file stores no time here") << text;
  }
}

TEST(Unescaped, turns_coded_characters_into_themselves) {
  // ECMA-376 part 1, 22.9.2.19: _xHHHH_ stands for the character; _x005F_ writes the underscore of one that does not.
  EXPECT_EQ(unescaped("a_x0009_b"), "a\tb");
  EXPECT_EQ(unescaped("a_x005F_x0009_b"), "a_x0009_b");
  EXPECT_EQ(unescaped("a_x000D_\nb"), "a\nb");
  EXPECT_EQ(unescaped("_x00E9_"), "\u00E9");
  EXPECT_EQ(unescaped("box_x12"), "box_x12");
  EXPECT_EQ(unescaped("_x00g1_ _xD800_"), "_x00g1_ _xD800_");
}

}  // namespace
}  // namespace sherd::exchange
