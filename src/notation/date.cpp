#include "notation/date.h"

#include <algorithm>
#include <cstddef>

#include "base/text.h"
#include "notation/date_meaning.h"
#include "notation/date_parser.h"

namespace sherd::notation {

namespace {

constexpr std::size_t kLongest = 120;  ///< bytes of a date that is worth reading
constexpr std::size_t kShown = 60;     ///< characters of one that is not
constexpr std::string_view kHint =
    "Readable are for example 120-250, 1120-35, c. 1350, C2, L13-E14, early 2nd century, 1st half C13, Q3 C2, 50 BC-AD "
    "70, 270+, pre-410, C13?, undated.";

std::size_t characters(std::string_view text) {
  return static_cast<std::size_t>(
      std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

/// The text on one line: control characters as spaces.
std::string printable(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = ' ';
  }
  return out;
}

std::unexpected<Error> unreadable(std::string_view text, const DateTrouble& trouble) {
  constexpr std::string_view kStart = "cannot read the date: ";
  const std::string shown = is_utf8(text) ? shortened(printable(text), kShown) : "(not UTF-8 text)";
  const std::size_t place = std::min(characters(text.substr(0, trouble.at)), kShown);
  std::string message = std::string(kStart) + shown + "\n";
  message += std::string(kStart.size() + (is_utf8(text) ? place : 0), ' ') + "^ " + trouble.why;
  return fail("unreadable_date", std::move(message), std::string(kHint));
}

}  // namespace

Result<DateReading> read_date(std::string_view text, const DateStyle& style) {
  text = trim(text);
  if (text.empty()) return unreadable(text, {0, "there is nothing here"});
  if (text.size() > kLongest) return unreadable(text, {0, "this is too long for a date"});
  auto written = parse_date(text);
  if (!written) return unreadable(text, written.error());
  auto reading = date_meaning(*written, style);
  if (!reading) return unreadable(text, reading.error());
  return std::move(*reading);
}

}  // namespace sherd::notation
