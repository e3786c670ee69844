#include "cli/print.h"
#include "desk/assemblage/compare_tables.h"

namespace sherd::cli {

CsvRows table_of(const desk::CompareResponse& response) {
  auto tables = desk::tables_of(response);
  return tables.empty() ? CsvRows{} : std::move(tables.front().rows);
}

}  // namespace sherd::cli
