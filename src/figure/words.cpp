#include "figure/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "base/text.h"

namespace sherd::figure {
namespace {

constexpr double kTooLongToWriteOut = 1e12;

}  // namespace

std::string number_text(double value, int decimals) {
  if (!std::isfinite(value)) return {};
  if (std::abs(value) >= kTooLongToWriteOut)
    return (value < 0 ? "\u2212" : "") + fmt::format("{:.3g}", std::abs(value));
  std::string text = format_fixed(std::abs(value), decimals);
  const std::size_t point = std::min(text.find('.'), text.size());
  for (std::size_t at = point; at > 3; at -= 3) text.insert(at - 3, ",");
  const bool is_zero = text.find_first_of("123456789") == std::string::npos;
  return value < 0 && !is_zero ? "\u2212" + text : text;
}

std::string with_unit(std::string_view number, std::string_view unit) {
  return unit.empty() ? std::string(number) : std::string(number) + " " + std::string(unit);
}

std::string axis_title(std::string_view measure, std::string_view unit) {
  return unit.empty() ? std::string(measure) : std::string(measure) + " (" + std::string(unit) + ")";
}

std::string n_text(std::optional<std::int64_t> n, std::string_view n_word) {
  if (!n) return {};
  return "n " + grouped(*n) + (n_word.empty() ? "" : " " + std::string(n_word));
}

std::string year_axis_title(Year first, Year last) {
  if (last.value < 1) return "Year BC";
  return first.value >= 1 ? "Year AD" : "Year BC and AD";
}

}  // namespace sherd::figure
