#include "methods/quantify/natural_order.h"

#include <algorithm>
#include <cstddef>

namespace sherd::quantify {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
char folded(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// The digits at `at` without leading zeros; moves `at` behind them.
std::string_view take_number(std::string_view text, std::size_t& at) {
  while (at < text.size() && text[at] == '0') ++at;
  const std::size_t from = at;
  while (at < text.size() && is_digit(text[at])) ++at;
  return text.substr(from, at - from);
}

std::strong_ordering by_value(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return a.size() <=> b.size();
  return a.compare(b) <=> 0;
}

}  // namespace

std::strong_ordering natural_order(std::string_view a, std::string_view b) {
  if (a.empty() != b.empty()) return a.empty() ? std::strong_ordering::greater : std::strong_ordering::less;
  std::size_t i = 0;
  std::size_t j = 0;
  while (i < a.size() && j < b.size()) {
    std::strong_ordering order = std::strong_ordering::equal;
    if (is_digit(a[i]) && is_digit(b[j])) {
      const std::string_view first = take_number(a, i);
      order = by_value(first, take_number(b, j));
    } else {
      order = static_cast<unsigned char>(folded(a[i++])) <=> static_cast<unsigned char>(folded(b[j++]));
    }
    if (order != 0) return order;
  }
  if ((i < a.size()) != (j < b.size()))
    return i < a.size() ? std::strong_ordering::greater : std::strong_ordering::less;
  return a.compare(b) <=> 0;
}

}  // namespace sherd::quantify
