#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "notation/date.h"
#include "notation/date_text.h"
#include "notation/period.h"

namespace {

using sherd::notation::DateReader;
using sherd::notation::DateReading;
using sherd::notation::DateStyle;

sherd::PeriodTable periods() {
  const std::vector<std::vector<std::string>> rows{
      {"authority", "kind", "name", "synonyms", "abbreviation", "earliest", "latest", "source", "known"},
      {"a", "period", "Iron Age", "", "IA", "-800", "42", "s", "read"},
      {"a", "period", "Early Iron Age", "", "EIA", "-800", "-401", "s", "read"},
      {"a", "period", "Middle Iron Age", "", "MIA", "-400", "-101", "s", "read"},
      {"a", "period", "Roman", "Romano-British", "RB", "43", "409", "s", "memory"},
      {"a", "period", "Post-medieval", "", "", "1540", "", "s", "read"},
      {"b", "period", "Roman", "", "", "43", "410", "s", "read"},
      {"b", "period", "Saxon", "", "", "", "1066", "s", "read"},
      {"c", "reign", "Edward I", "", "", "1272", "1307", "s", "read"},
      {"c", "reign", "Edward II", "", "", "1307", "1327", "s", "read"},
      {"c", "reign", "William and Mary", "", "", "1689", "1694", "s", "read"},
      {"c", "house", "Tudor", "", "", "1485", "1603", "s", "read"}};
  return *sherd::notation::period_table(rows);
}

std::vector<DateReader> readers() {
  std::vector<DateReader> out;
  for (const DateStyle& style : sherd::notation::date_styles()) {
    out.push_back(*DateReader::with(periods(), {.style = style}));
    out.push_back(*DateReader::with(
        periods(), {.style = style, .authority = "b", .slash_is_either = true, .small_letters_uncalibrated = true}));
  }
  return out;
}

/// No range runs backwards, an age has no years, and what was read can be written and read again.
void check(const DateReading& reading, const DateStyle& style) {
  const sherd::YearRange& range = reading.range;
  if (range.closed() && *range.latest < *range.earliest) __builtin_trap();
  if (reading.age && (!range.empty() || reading.age->younger > reading.age->older)) __builtin_trap();
  const auto again = sherd::notation::read_date(sherd::notation::date_text(range, style), style);
  if (!again || again->range != range) __builtin_trap();
}

}  // namespace

/// A date as somebody might write it.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const std::vector<DateReader> kReaders = readers();
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  for (const DateStyle& style : sherd::notation::date_styles()) {
    if (const auto reading = sherd::notation::read_date(text, style)) check(*reading, style);
  }
  for (const DateReader& reader : kReaders) {
    if (const auto reading = reader.read(text)) check(*reading, sherd::notation::default_date_style());
  }
  return 0;
}
