#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "exchange/sheets/row_source.h"

// For the tests of the readers: tables read whole, and office files put together from their parts.
namespace sherd::exchange::fixture {

using Row = std::vector<std::string>;

struct ReadTable {
  TableFormat format;
  std::vector<Row> cells;
  std::vector<Row> problems;  ///< beside the cells
  std::vector<std::int64_t> rows;
  std::vector<std::int64_t> lines;
};

/// Opens and reads to the end; the error of whichever step fails.
Result<ReadTable> read_whole(std::string_view bytes, std::string_view name = "table", std::string_view sheet = {},
                             const ReadLimits& limits = {});
/// The cells alone; an error as one row {"code", "message"}.
std::vector<Row> cells_of(std::string_view bytes, std::string_view name = "table", std::string_view sheet = {},
                          const ReadLimits& limits = {});
/// The error, or one with the code "none".
Error error_of(std::string_view bytes, std::string_view name = "table", std::string_view sheet = {},
               const ReadLimits& limits = {});

using Parts = std::vector<std::pair<std::string, std::string>>;
/// A zip of the parts in order.
std::string zip_of(const Parts& parts);

/// What goes into an XLSX whose one sheet, "Finds", is typed in the test.
struct XlsxParts {
  std::string rows;         ///< inside sheetData
  std::string shared;       ///< inside sst; "" leaves the part out
  std::string styles;       ///< inside styleSheet; "" leaves the part out
  std::string workbook_pr;  ///< the element, or ""
  std::string space = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
};
Parts xlsx_parts(const XlsxParts& what);
std::string xlsx_of(const XlsxParts& what);

/// An ODS with `tables` inside office:spreadsheet and `styles` inside office:automatic-styles.
Parts ods_parts(const std::string& tables, const std::string& styles = {});
std::string ods_of(const std::string& tables, const std::string& styles = {});
/// An ODS of one table, "Finds", with these rows.
std::string ods_rows(const std::string& rows);

}  // namespace sherd::exchange::fixture
