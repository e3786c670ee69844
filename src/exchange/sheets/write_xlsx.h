#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.h"

namespace sherd::exchange {

enum class XlsxColumnType : std::uint8_t { text, integer, number };

struct XlsxColumn {
  std::string title;
  double width = 12;  ///< in characters
  XlsxColumnType type = XlsxColumnType::text;
};

struct XlsxTable {
  std::string title;  ///< of the sheet: 1 to 31 characters, none of [ ] : * ? / and backslash
  std::vector<XlsxColumn> columns;
  std::vector<std::vector<std::string>> rows;
};

struct XlsxBook {
  std::vector<XlsxTable> sheets;
  std::string title;
  std::int64_t created = 0;  ///< seconds since 1 January 1970, UTC
};

/// The bytes of an XLSX: a bold header that stays in view and filters, one row a row. In columns of numbers, cells that
/// are a number are stored as one, others as text; empty cells are left out. The same book gives the same bytes.
/// Errors: `no_sheet`, `bad_sheet_title`, `cell_too_large` (32,767 characters is what the format holds),
/// `too_many_rows` (1,048,576), `too_many_columns` (16,384), `not_written`.
Result<std::string> write_xlsx(const XlsxBook& book);

}  // namespace sherd::exchange
