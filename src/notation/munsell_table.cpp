#include "notation/munsell_table.h"

#include <charconv>
#include <string>

#include "base/text.h"
#include "notation/munsell.h"

namespace sherd::notation {

namespace {

constexpr std::size_t kHues = 40;
constexpr std::size_t kValues = 9;

Result<std::vector<Chromaticity>> chromaticities(const CsvTable& table, std::size_t row) {
  std::vector<double> numbers;
  for (const std::string_view part : split(table.text(row, 2), ' ')) {
    double value = 0;
    const auto [end, error] = std::from_chars(part.data(), part.data() + part.size(), value);
    if (error != std::errc{} || end != part.data() + part.size() || !(value > 0 && value < 1))
      return table.bad(row, 2, "has a coordinate outside 0 to 1");
    numbers.push_back(value);
  }
  if (numbers.size() % 2 != 0) return table.bad(row, 2, "has an odd number of coordinates");
  std::vector<Chromaticity> out;
  for (std::size_t i = 0; i < numbers.size(); i += 2) out.push_back({numbers[i], numbers[i + 1]});
  return out;
}

}  // namespace

Result<MunsellTable> munsell_table(const CsvRows& rows) {
  SHERD_TRY(const CsvTable table, CsvTable::of(rows, {"hue", "value", "xy"}));
  if (table.rows() != kHues * kValues)
    return fail(ErrorKind::internal, "bad_table",
                "the table has " + counted(static_cast<long long>(table.rows()), "row"));
  MunsellTable out;
  for (std::size_t r = 0; r < table.rows(); ++r) {
    MunsellRow row;
    row.hue = static_cast<int>(r / kValues) + 1;
    row.value = static_cast<int>(r % kValues) + 1;
    if (table.text(r, 0) != hue_text(row.hue)) return table.bad(r, 0, "is out of order");
    if (table.text(r, 1) != std::to_string(row.value)) return table.bad(r, 1, "is out of order");
    SHERD_TRY(row.chroma, chromaticities(table, r));
    out.rows.push_back(std::move(row));
  }
  return out;
}

}  // namespace sherd::notation
