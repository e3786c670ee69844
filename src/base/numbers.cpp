#include "base/numbers.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "base/text.h"

namespace sherd {

namespace {

constexpr std::int64_t kLargest = 9'000'000'000'000'000;  // exact as a double too

struct Decimal {
  bool negative = false;
  std::string digits;  // without point
  int exponent = 0;    // value = digits * 10^exponent
};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::optional<Decimal> read_decimal(std::string_view text) {
  Decimal out;
  std::size_t at = 0;
  if (at < text.size() && (text[at] == '-' || text[at] == '+')) out.negative = text[at++] == '-';
  bool point = false;
  for (; at < text.size() && (is_digit(text[at]) || (text[at] == '.' && !point)); ++at) {
    if (text[at] == '.') {
      point = true;
    } else {
      out.digits += text[at];
      if (point) --out.exponent;
    }
  }
  if (out.digits.empty()) return std::nullopt;
  if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
    ++at;
    if (at < text.size() && text[at] == '+') ++at;
    int exponent = 0;
    const auto [end, error] = std::from_chars(text.data() + at, text.data() + text.size(), exponent);
    if (error != std::errc{} || exponent > 40 || exponent < -40) return std::nullopt;
    at = static_cast<std::size_t>(end - text.data());
    out.exponent += exponent;
  }
  if (at != text.size()) return std::nullopt;
  return out;
}

}  // namespace

Result<std::int64_t> parse_scaled(std::string_view text, int decimals) {
  text = trim(text);
  const auto decimal = read_decimal(text);
  if (!decimal) return fail("not_a_number", "\"" + shortened(text, 40) + "\" is not a number");
  int shift = decimal->exponent + decimals;
  std::int64_t value = 0;
  bool too_large = false;
  const auto push = [&](int digit) {
    if (value > kLargest / 10) too_large = true;
    if (!too_large) value = value * 10 + digit;
  };
  const std::size_t keep =
      shift < 0 ? decimal->digits.size() - std::min(decimal->digits.size(), static_cast<std::size_t>(-shift))
                : decimal->digits.size();
  for (std::size_t i = 0; i < keep; ++i) push(decimal->digits[i] - '0');
  if (value != 0) {
    for (; shift > 0; --shift) push(0);
  }
  if (too_large) return fail("number_too_large", "\"" + shortened(text, 40) + "\" is too large a number");
  const bool rounds_up =
      shift < 0 && static_cast<std::size_t>(-shift) <= decimal->digits.size() && decimal->digits[keep] >= '5';
  if (rounds_up) ++value;
  return decimal->negative ? -value : value;
}

std::string format_scaled(std::int64_t value, int decimals) {
  std::string digits = std::to_string(value < 0 ? -value : value);
  const auto places = static_cast<std::size_t>(decimals);
  if (digits.size() <= places) digits.insert(0, places + 1 - digits.size(), '0');
  if (decimals > 0) {
    digits.insert(digits.size() - places, ".");
    while (digits.back() == '0') digits.pop_back();
    if (digits.back() == '.') digits.pop_back();
  }
  return value < 0 ? "-" + digits : digits;
}

std::string format_double(double value) {
  if (std::isnan(value)) return {};
  std::array<char, 40> buffer{};
  // 100000 and not 1e+05, which is the shorter.
  const bool large = std::abs(value) >= 1e5 && std::abs(value) < 1e15;
  const auto [end, error] =
      large ? std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed)
            : std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return {buffer.data(), end};
}

std::string format_fixed(double value, int places) {
  if (std::isnan(value)) return {};
  std::array<char, 400> buffer{};
  const auto [end, error] =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, places);
  std::string text(buffer.data(), end);
  if (text.starts_with('-') && text.find_first_of("123456789") == std::string::npos) text.erase(0, 1);
  return text;
}

}  // namespace sherd
