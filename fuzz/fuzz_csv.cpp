#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv.h"

/// The CSV of the built-in tables, archives and the list of accounts: whole and row by row say the same, and what was
/// read is written and read again as the same cells.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(data, data + size);
  const auto whole = sherd::parse_csv(text);
  sherd::CsvCursor cursor(text);
  sherd::CsvRows rows;
  std::vector<std::string> row;
  auto more = cursor.next(row);
  for (; more && *more; more = cursor.next(row)) rows.push_back(row);
  if (whole && (!more || *whole != rows)) __builtin_trap();
  if (!whole || whole->empty()) return 0;
  const auto again = sherd::parse_csv(sherd::csv_text(*whole));
  if (again && *again != *whole) __builtin_trap();
  return 0;
}
