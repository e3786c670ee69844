#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace sherd::exchange {

/// How a spreadsheet shows a number.
enum class NumberStyle : std::uint8_t { number, date, duration, percent };

/// The style of a number format of an XLSX: the built-in ones by `id` (ECMA-376 part 1, 18.8.30), others by `code`, of
/// which the first section counts and text in quotation marks, brackets or after a backslash does not.
NumberStyle style_of_format(int id, std::string_view code);

/// A value as text; `problem` is "" or points at a constant.
struct ValueText {
  std::string text;
  std::string_view problem;
};

/// A stored number with the 15 significant digits a spreadsheet shows: "12.0" -> "12", "1.4999999999999999" -> "1.5",
/// "1E+20". Text that is no finite number comes back with a problem.
ValueText number_text(std::string_view stored);
/// 0.45 -> "45 %".
ValueText percent_text(std::string_view stored);
/// A day number -> "2024-03-01", "2024-03-01T10:20:30" or, below one day, "10:20:30"; to the second. Day 1 is 1 January
/// 1900 and day 60 the 29 February 1900 that never was, or, `since_1904`, day 0 is 1 January 1904 (ECMA-376 part
/// 1, 18.17.4.1).
ValueText date_text(std::string_view stored, bool since_1904);
/// Days -> hours, minutes and seconds: 1.5 -> "36:00:00".
ValueText duration_text(std::string_view stored);
ValueText styled_text(NumberStyle style, std::string_view stored, bool since_1904);

/// An ISO 8601 date without an idle "T00:00:00" and without fractions of a second that are zero.
std::string tidy_iso_date(std::string_view stored);
/// "PT10H20M30S" -> "10:20:30" (the durations of XML Schema part 2, 3.2.6, without years and months); otherwise as
/// stored, with a problem.
ValueText iso_duration_text(std::string_view stored);

/// Text with `_x000D_` and the like turned into the characters they stand for (ECMA-376 part 1, 22.9.2.19), carriage
/// returns before line feeds left out.
std::string unescaped(std::string_view text);

}  // namespace sherd::exchange
