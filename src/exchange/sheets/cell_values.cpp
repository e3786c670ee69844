#include "exchange/sheets/cell_values.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <cmath>
#include <optional>

#include "exchange/sheets/encoding.h"

namespace sherd::exchange {
namespace {

constexpr std::string_view kNotANumber = "the file stores no number here";
constexpr std::string_view kNotADate = "the number lies outside the dates of a spreadsheet";
constexpr std::string_view kNotATime = "the file stores no time here";
constexpr std::int64_t kSecondsADay = 86'400;
constexpr double kLastDay = 2'958'465;  // 31 December 9999

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Digits as a spreadsheet would write them itself: nothing is gained by reading and writing the number.
bool is_plain(std::string_view text) {
  const std::string_view unsigned_text = text.starts_with('-') ? text.substr(1) : text;
  if (unsigned_text.empty() || unsigned_text.size() > 15 || !is_digit(unsigned_text.front())) return false;
  if (unsigned_text.size() > 1 && unsigned_text[0] == '0' && unsigned_text[1] != '.') return false;
  const std::size_t point = unsigned_text.find('.');
  const bool digits = std::ranges::all_of(unsigned_text, [](char c) { return is_digit(c) || c == '.'; }) &&
                      std::ranges::count(unsigned_text, '.') <= 1;
  if (!digits || text == "-0") return false;
  return point == std::string_view::npos || (is_digit(text.back()) && text.back() != '0');
}

std::optional<double> parse_double(std::string_view text) {
  if (text.starts_with('+')) text.remove_prefix(1);
  double value = 0;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (status != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::string digits15(double value) {
  if (value == 0) return "0";
  std::array<char, 64> buffer;
  const double size = std::abs(value);
  const auto [end, status] =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::scientific, 14);
  std::string text(buffer.data(), end);
  const std::size_t e = text.find('e');
  std::string mantissa = text.substr(0, e);
  std::string exponent = text.substr(e + 1);
  mantissa.erase(mantissa.find_last_not_of('0') + 1);
  if (mantissa.ends_with('.')) mantissa.pop_back();
  if (size >= 1e15 || size < 1e-10) return fmt::format("{}E{}", mantissa, exponent);
  const bool negative = mantissa.starts_with('-');
  std::string digits = mantissa.substr(negative ? 1 : 0);
  std::erase(digits, '.');
  const int places = std::stoi(exponent);
  if (places < 0) {
    digits = "0." + std::string(static_cast<std::size_t>(-places - 1), '0') + digits;
  } else if (const auto whole = static_cast<std::size_t>(places) + 1; digits.size() <= whole) {
    digits.append(whole - digits.size(), '0');
  } else {
    digits.insert(whole, ".");
  }
  return negative ? "-" + digits : digits;
}

std::string clock_text(std::int64_t seconds) {
  return fmt::format("{:02}:{:02}:{:02}", seconds / 3600, seconds / 60 % 60, seconds % 60);
}

std::string day_text(std::int64_t day, bool since_1904) {
  using namespace std::chrono;
  if (!since_1904 && day == 60) return "1900-02-29";
  // Before the false leap day a day number is one nearer to its date.
  const sys_days epoch = since_1904 ? sys_days{1904y / 1 / 1}
                         : day < 60 ? sys_days{1899y / 12 / 31}
                                    : sys_days{1899y / 12 / 30};
  const year_month_day date{epoch + days{day}};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

/// The first section of a format code without what it shows literally, in lower case.
struct FormatCode {
  std::string bare;
  bool elapsed = false;  ///< it holds [h], [mm] ...
};

FormatCode strip_code(std::string_view code) {
  FormatCode out;
  for (std::size_t i = 0; i < code.size() && code[i] != ';'; ++i) {
    const char c = code[i];
    if (c == '"' || c == '[') {
      const std::size_t close = std::min(code.find(c == '"' ? '"' : ']', i + 1), code.size());
      const std::string_view inside = code.substr(i + 1, close - i - 1);
      out.elapsed |= c == '[' && !inside.empty() && inside.find_first_not_of("hHmMsS") == std::string_view::npos;
      i = close;
    } else if (c == '\\' || c == '_' || c == '*') {
      ++i;
    } else {
      out.bare += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
  }
  return out;
}

}  // namespace

NumberStyle style_of_format(int id, std::string_view code) {
  if (code.empty()) {
    if (id == 9 || id == 10) return NumberStyle::percent;
    if (id == 46) return NumberStyle::duration;
    const bool date =
        (id >= 14 && id <= 22) || (id >= 27 && id <= 36) || id == 45 || id == 47 || (id >= 50 && id <= 58);
    return date ? NumberStyle::date : NumberStyle::number;
  }
  const FormatCode format = strip_code(code);
  if (format.elapsed) return NumberStyle::duration;
  if (format.bare.find("general") != std::string::npos) return NumberStyle::number;
  if (format.bare.find_first_of("ymdhs") != std::string::npos) return NumberStyle::date;
  return format.bare.find('%') != std::string::npos ? NumberStyle::percent : NumberStyle::number;
}

ValueText number_text(std::string_view stored) {
  if (is_plain(stored)) return {std::string(stored), {}};
  const auto value = parse_double(stored);
  if (!value) return {std::string(stored), kNotANumber};
  return {digits15(*value), {}};
}

ValueText percent_text(std::string_view stored) {
  const auto value = parse_double(stored);
  if (!value || !std::isfinite(*value * 100)) return {std::string(stored), kNotANumber};
  return {digits15(*value * 100) + " %", {}};
}

ValueText date_text(std::string_view stored, bool since_1904) {
  const auto value = parse_double(stored);
  if (!value) return {std::string(stored), kNotANumber};
  if (*value < 0 || *value >= kLastDay + 1) return {number_text(stored).text, kNotADate};
  const std::int64_t seconds = std::llround(*value * static_cast<double>(kSecondsADay));
  const std::int64_t day = seconds / kSecondsADay;
  const std::int64_t time = seconds % kSecondsADay;
  if (static_cast<double>(day) > kLastDay) return {number_text(stored).text, kNotADate};
  if (day == 0 && time > 0) return {clock_text(time), {}};
  if (day == 0 && !since_1904) return {"0", kNotADate};
  const std::string_view problem = day == 60 && !since_1904 ? "there was no 29 February 1900" : "";
  if (time == 0) return {day_text(day, since_1904), problem};
  return {day_text(day, since_1904) + "T" + clock_text(time), problem};
}

ValueText duration_text(std::string_view stored) {
  const auto value = parse_double(stored);
  if (!value) return {std::string(stored), kNotANumber};
  if (std::abs(*value) > kLastDay) return {number_text(stored).text, kNotADate};
  const std::int64_t seconds = std::llround(*value * static_cast<double>(kSecondsADay));
  return {(seconds < 0 ? "-" : "") + clock_text(std::abs(seconds)), {}};
}

ValueText styled_text(NumberStyle style, std::string_view stored, bool since_1904) {
  switch (style) {
    case NumberStyle::number:
      return number_text(stored);
    case NumberStyle::date:
      return date_text(stored, since_1904);
    case NumberStyle::duration:
      return duration_text(stored);
    case NumberStyle::percent:
      return percent_text(stored);
  }
  return {std::string(stored), kNotANumber};
}

std::string tidy_iso_date(std::string_view stored) {
  const std::size_t point = stored.find('.');
  if (point != std::string_view::npos && stored.find_first_not_of('0', point + 1) == std::string_view::npos)
    stored = stored.substr(0, point);
  if (stored.ends_with("T00:00:00")) stored.remove_suffix(9);
  return std::string(stored);
}

ValueText iso_duration_text(std::string_view stored) {
  ValueText wrong{std::string(stored), kNotATime};
  std::string_view rest = stored;
  const bool negative = rest.starts_with('-');
  if (negative) rest.remove_prefix(1);
  if (!rest.starts_with('P')) return wrong;
  rest.remove_prefix(1);
  double seconds = 0;
  bool clock = false;
  bool any = false;
  while (!rest.empty()) {
    if (rest.front() == 'T' && !clock) {
      clock = true;
      rest.remove_prefix(1);
      continue;
    }
    const std::size_t unit = rest.find_first_not_of("0123456789.");
    if (unit == std::string_view::npos) return wrong;
    const auto number = parse_double(rest.substr(0, unit));
    const double factor = rest[unit] == 'D' && !clock  ? 86'400
                          : rest[unit] == 'H' && clock ? 3'600
                          : rest[unit] == 'M' && clock ? 60
                          : rest[unit] == 'S' && clock ? 1
                                                       : 0;
    if (!number || factor == 0) return wrong;
    seconds += *number * factor;
    any = true;
    rest.remove_prefix(unit + 1);
  }
  if (!any || seconds > kLastDay * static_cast<double>(kSecondsADay)) return wrong;
  return {(negative ? "-" : "") + clock_text(std::llround(seconds)), {}};
}

std::string unescaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    unsigned code = 0;
    const std::string_view mark = text.substr(i, 7);
    const bool escape = mark.size() == 7 && mark.starts_with("_x") && mark[6] == '_' &&
                        std::from_chars(mark.data() + 2, mark.data() + 6, code, 16).ptr == mark.data() + 6;
    if (!escape || code == 0 || (code >= 0xD800 && code <= 0xDFFF)) {
      out += text[i];
      continue;
    }
    append_utf8(out, code);
    i += 6;
  }
  std::size_t size = 0;
  for (std::size_t i = 0; i < out.size(); ++i)
    if (out[i] != '\r' || i + 1 == out.size() || out[i + 1] != '\n') out[size++] = out[i];
  out.resize(size);
  return out;
}

}  // namespace sherd::exchange
