#include "exchange/cell_reader.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <vector>

#include "base/numbers.h"
#include "base/text.h"
#include "model/table.h"
#include "notation/entry.h"

namespace sherd::exchange {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// The number in front and what stands behind it.
std::pair<std::string_view, std::string_view> split_unit(std::string_view text) {
  std::size_t end = text.size();
  while (end > 0 && !is_digit(text[end - 1]) && text[end - 1] != '.' && text[end - 1] != ',') --end;
  return {trim(text.substr(0, end)), trim(text.substr(end))};
}

/// "1,450": a comma with groups of three behind it may be a thousand's mark.
bool looks_grouped(std::string_view text) {
  const auto parts = split(text, ',');
  if (parts.size() < 2 || parts.front().empty() || parts.front().size() > 3) return false;
  return std::all_of(parts.begin() + 1, parts.end(), [](std::string_view part) {
    return part.substr(0, part.find('.')).size() == 3 && std::all_of(part.begin(), part.begin() + 3, is_digit);
  });
}

Result<std::string> with_point(std::string_view number, char decimal) {
  const bool comma = number.find(',') != std::string_view::npos;
  const bool point = number.find('.') != std::string_view::npos;
  if (decimal == ',') {
    if (point) {
      return fail("ambiguous_number",
                  "\"" + std::string(number) + "\" has a point where the table writes decimals with a comma",
                  "write it without marks between thousands");
    }
    return replace_all(std::string(number), ",", ".");
  }
  if (!comma) return std::string(number);
  if (looks_grouped(number)) {
    return fail("ambiguous_number", "\"" + std::string(number) + "\" may be a decimal or a thousand",
                "write it without marks between thousands, or say \"decimal\": \",\" in the mapping");
  }
  return fail("not_a_number",
              "\"" + std::string(number) + "\" is not a number where the table writes decimals with a point",
              "if it writes them with a comma, say \"decimal\": \",\" in the mapping");
}

Result<std::int64_t> scaled_by(std::string_view number, std::string_view times, int places) {
  if (times.empty()) return parse_scaled(number, places);
  constexpr int kPlaces = 6;
  SHERD_TRY(const std::int64_t value, parse_scaled(number, kPlaces));
  SHERD_TRY(const std::int64_t factor, parse_scaled(times, kPlaces));
  __extension__ using Wide = __int128;
  Wide product = static_cast<Wide>(value) * factor;
  Wide divisor = 1;
  for (int i = places; i < 2 * kPlaces; ++i) divisor *= 10;
  const bool negative = product < 0;
  if (negative) product = -product;
  product = (product + divisor / 2) / divisor;
  if (product > 9'000'000'000'000'000)
    return fail("number_too_large", "\"" + std::string(number) + "\" is too large a number");
  return static_cast<std::int64_t>(negative ? -product : product);
}

/// Plain digits, by far the commonest cell.
std::optional<std::int64_t> plain_integer(std::string_view text, int places) {
  if (text.empty() || text.size() > 9) return std::nullopt;
  std::int64_t value = 0;
  for (const char c : text) {
    if (!is_digit(c)) return std::nullopt;
    value = value * 10 + (c - '0');
  }
  for (; places > 0; --places) value *= 10;
  return value;
}

}  // namespace

Result<std::int64_t> read_number(std::string_view text, CellType type, std::string_view times, const CellStyle& style) {
  const int places = decimals(type);
  if (times.empty()) {
    if (const auto plain = plain_integer(text, places)) return *plain;
  }
  const auto [number, unit] = split_unit(text);
  if (number.empty()) return fail("not_a_number", "\"" + shortened(text, 40) + "\" is not a number");
  if (!unit.empty() && unit != notation::unit_of(type)) {
    const std::string_view wanted = notation::unit_of(type);
    if (wanted.empty()) return fail("not_a_number", "\"" + shortened(text, 40) + "\" is not a number");
    return fail("wrong_unit", "\"" + shortened(text, 40) + "\" is not in " + std::string(wanted),
                "write the number alone, in " + std::string(wanted) + ", or give the column a factor in the mapping");
  }
  SHERD_TRY(const std::string plain, with_point(number, style.decimal));
  if (type == CellType::count) {
    SHERD_TRY(const std::int64_t tenths, scaled_by(plain, times, 3));
    if (tenths % 1000 != 0) return fail("not_whole", "\"" + shortened(text, 40) + "\" is not a whole number");
  }
  SHERD_TRY(const std::int64_t value, scaled_by(plain, times, places));
  if (value < 0 && !is_signed(type))
    return fail("negative", "\"" + shortened(text, 40) + "\" is below zero", "check the sign");
  return value;
}

Result<std::int64_t> read_year(std::string_view text, bool latest, const CellStyle& style) {
  if (const auto plain = plain_integer(text, 0); plain && *plain > 0 && text.size() <= 4) return *plain;
  SHERD_TRY(const notation::DateReading reading, notation::read_date(text, style.date_style));
  const auto year = latest ? reading.range.latest : reading.range.earliest;
  return year ? year->value : Column::kNull;
}

Result<std::string_view> read_word(std::string_view text, std::span<const std::string_view> words) {
  std::string folded = lower(text);
  std::replace_if(folded.begin(), folded.end(), [](char c) { return c == ' ' || c == '-'; }, '_');
  for (const std::string_view word : words) {
    if (lower(word) == folded) return word;
  }
  const std::vector<std::string> known(words.begin(), words.end());
  std::string hint = did_you_mean(folded, known);
  if (hint.empty()) hint = "known are: " + join(known, ", ");
  return fail("unknown_word", "\"" + shortened(text, 40) + "\" is not in the list", hint);
}

Result<std::string> read_day(std::string_view text) {
  int year = 0;
  unsigned month = 0;
  unsigned day = 0;
  const auto number = [&](std::size_t at, std::size_t length, auto& out) {
    const char* end = text.data() + at + length;
    return std::from_chars(text.data() + at, end, out).ptr == end;
  };
  const std::string_view date = text.substr(0, 10);
  if (date.size() == 10 && date[4] == '-' && date[7] == '-' && number(0, 4, year) && number(5, 2, month) &&
      number(8, 2, day)) {
    const std::chrono::year_month_day found{std::chrono::year(year), std::chrono::month(month), std::chrono::day(day)};
    if (found.ok()) return std::string(text);
    return fail("not_a_day", "\"" + shortened(text, 40) + "\" is not a day of the calendar");
  }
  return fail("not_a_day", "\"" + shortened(text, 40) + "\" is not a day", "write it as 2026-11-03");
}

bool is_blank(std::string_view text, CellType type) {
  if (text.empty()) return true;
  if (is_text(type)) return false;
  static constexpr std::array<std::string_view, 5> kNothing{"-", "\u2013", "n/a", "none", "nd"};
  return std::find(kNothing.begin(), kNothing.end(), lower(text)) != kNothing.end();
}

}  // namespace sherd::exchange
