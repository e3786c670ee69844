#include "exchange/sheets/formula_cells.h"

#include <algorithm>

namespace sherd::exchange {

namespace {

constexpr char kMark = '\'';

std::string_view behind_marks(std::string_view text) {
  return text.substr(std::min(text.find_first_not_of(kMark), text.size()));
}

}  // namespace

bool looks_like_formula(std::string_view text) {
  if (text.size() < 2) return false;
  constexpr std::string_view kBegins = "=@\t\r", kSigns = "+-", kOfNumbers = "0123456789 .,:;/%+-";
  if (kBegins.contains(text.front())) return true;
  return kSigns.contains(text.front()) && text.find_first_not_of(kOfNumbers) != std::string_view::npos;
}

bool needs_mark(std::string_view text) { return looks_like_formula(behind_marks(text)); }

std::string_view without_mark(std::string_view text) {
  return !text.empty() && text.front() == kMark && needs_mark(text) ? text.substr(1) : text;
}

}  // namespace sherd::exchange
