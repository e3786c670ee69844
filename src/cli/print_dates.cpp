#include <fmt/format.h>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// Mean dates of plain tables, and stems of clay pipes.
namespace sherd::cli {

namespace {

std::string year_or_dash(const std::optional<double>& year) { return year ? format_fixed(*year, 1) : "-"; }
std::string between(const std::optional<double>& low, const std::optional<double>& high) {
  return low && high ? format_fixed(*low, 0) + "-" + format_fixed(*high, 0) : "-";
}

}  // namespace

std::string text_of(const desk::MeanDatesResponse& response) {
  TextTable table({"label", "amount", "mean", "95 %", "sd", "undated %", "undated types"});
  for (const desk::MeanDatesRow& row : response.rows) {
    table.row({row.label, format_double(row.amount), year_or_dash(row.year), between(row.low95, row.high95),
               year_or_dash(row.sd), row.undated_share ? format_fixed(100 * *row.undated_share, 1) : "-",
               join(row.undated_kinds, "; ")});
  }
  return table.text() + fmt::format("{} of {} types dated.\n", response.dated_types, response.types);
}

std::string text_of(const desk::StemBoresResponse& response) {
  const dating::StemBores& bores = response.bores;
  std::string out = fmt::format("{}, mean bore {}/64 inch (sd {})\n\n", counted(bores.stems, "stem"),
                                format_fixed(bores.mean, 2), format_fixed(bores.sd, 2));
  TextTable formulas({"formula", "year", "95 %", "how known"});
  for (const dating::BoreFormula& one : bores.formulas) {
    const bool refused = !one.year;
    formulas.row(
        {one.name, refused ? "refused" : format_fixed(*one.year, 0), between(one.low95, one.high95), one.known});
  }
  TextTable periods({"period", "% of the stems", "similarity (200 is the same)", "how known"});
  for (const dating::BorePeriod& one : bores.periods) {
    periods.row({range_text({one.from, one.to}), format_fixed(100 * one.share, 1),
                 one.similarity ? format_fixed(*one.similarity, 0) : "-", one.known});
  }
  return out + formulas.text(80) + "\n" + periods.text();
}

CsvRows table_of(const desk::MeanDatesResponse& response) { return desk::csv_rows(response.rows); }

CsvRows table_of(const desk::StemBoresResponse& response) { return desk::csv_rows(response.bores.formulas); }

}  // namespace sherd::cli
