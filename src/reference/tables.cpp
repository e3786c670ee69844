#include "reference/tables.h"

#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>

#include "notation/analyte.h"
#include "notation/mark_tables.h"
#include "notation/munsell_table.h"
#include "notation/period.h"
#include "notation/scale_tables.h"
#include "reference/built_in.h"
#include "sherd_reference_data.h"

namespace sherd::reference {

void give_up(std::string_view table, const Error& error) {
  fmt::print(stderr, "the built-in table {} does not fit: {}\n", table, error.message);
  std::abort();
}

const AtomicWeights& atomic_weights() {
  static const AtomicWeights kTable =
      built_in("atomic_weights", notation::atomic_weights(built_in_rows("atomic_weights", atomic_weights_csv)));
  return kTable;
}

const std::vector<ElementAdviceRow>& element_advice() {
  static const std::vector<ElementAdviceRow> kRows =
      built_in("xrf_elements", notation::element_advice(built_in_rows("xrf_elements", xrf_elements_csv)));
  return kRows;
}

const DiamondTables& diamonds() {
  static const DiamondTables kTables = [] {
    const CsvRows position = built_in_rows("diamond_position", diamond_position_csv);
    const CsvRows year = built_in_rows("diamond_year", diamond_year_csv);
    const CsvRows month = built_in_rows("diamond_month", diamond_month_csv);
    const CsvRows classes = built_in_rows("diamond_class", diamond_class_csv);
    const CsvRows exceptions = built_in_rows("diamond_exceptions", diamond_exceptions_csv);
    return built_in("diamond", notation::diamond_tables({position, year, month, classes, exceptions}));
  }();
  return kTables;
}

const MarkTables& marks() {
  static const MarkTables kTables = [] {
    const CsvRows rules = built_in_rows("mark_rules", mark_rules_csv);
    const CsvRows wordings = built_in_rows("mark_wordings", mark_wordings_csv);
    const CsvRows cautions = built_in_rows("mark_cautions", mark_cautions_csv);
    const CsvRows verification = built_in_rows("verification_numbers", verification_numbers_csv);
    const CsvRows registered = built_in_rows("registered_numbers", registered_numbers_csv);
    return built_in("mark", notation::mark_tables({rules, wordings, cautions, verification, registered}));
  }();
  return kTables;
}

const MunsellTable& munsell() {
  static const MunsellTable kTable = built_in(
      "munsell_renotation", notation::munsell_table(built_in_rows("munsell_renotation", munsell_renotation_csv)));
  return kTable;
}

const ScaleTables& scales() {
  static const ScaleTables kTables = built_in("scales", notation::scale_tables(built_in_rows("scales", scales_csv)));
  return kTables;
}

const PeriodTable& periods() {
  static const PeriodTable kTable = [] {
    PeriodTable all = built_in("periods", notation::period_table(built_in_rows("periods", periods_csv)));
    const PeriodTable reigns = built_in("reigns", notation::period_table(built_in_rows("reigns", reigns_csv)));
    all.rows.insert(all.rows.end(), reigns.rows.begin(), reigns.rows.end());
    return all;
  }();
  return kTable;
}

}  // namespace sherd::reference
