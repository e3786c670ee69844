#include <cstdlib>

#include "base/numbers.h"
#include "base/text.h"
#include "reference/built_in.h"
#include "reference/tables.h"
#include "sherd_reference_data.h"

namespace sherd::reference {

namespace {

constexpr std::size_t kColumns = 8;
constexpr int kPlaces = 6;

Result<std::optional<Year>> year_in(const std::string& cell) {
  if (cell.empty()) return std::nullopt;
  SHERD_TRY(const std::int64_t year, parse_scaled(cell, 0));
  return from_historical(year);
}

Result<std::vector<KnownMeasure>> measures_in(const CsvRows& rows) {
  std::vector<KnownMeasure> measures;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const auto& cells = rows[i];
    if (cells.size() != kColumns) return fail("bad_table", "row " + std::to_string(i + 1) + " has another length");
    SHERD_TRY(const std::int64_t ml, parse_scaled(cells[2], kPlaces));
    KnownMeasure one{cells[0], cells[1], static_cast<double>(ml) / 1e6, {}, {}, cells[5], Known::read, cells[7]};
    SHERD_TRY(one.earliest, year_in(cells[3]));
    SHERD_TRY(one.latest, year_in(cells[4]));
    const auto known = from_word<Known>(cells[6]);
    if (!known || one.measure.empty() || one.reference.empty() || !(one.holds_ml > 0))
      return fail("bad_table", "row " + std::to_string(i + 1) + " is not whole");
    one.known = *known;
    measures.push_back(std::move(one));
  }
  return measures;
}

}  // namespace

const std::vector<KnownMeasure>& measures() {
  static const std::vector<KnownMeasure> kMeasures =
      built_in("measures", measures_in(built_in_rows("measures", measures_csv)));
  return kMeasures;
}

}  // namespace sherd::reference
