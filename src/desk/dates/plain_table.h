#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "desk/frame/environment.h"

namespace sherd::desk {

/// A table that is no table of the record: a header and rows of text, as long as the header.
struct PlainTable {
  struct Row {
    std::int64_t row = 0;  ///< as a spreadsheet numbers it
    std::vector<std::string> cells;
  };
  std::string file, sha256;
  std::vector<std::string> columns;
  std::vector<Row> rows;
  std::vector<std::string> warnings;

  /// The first column whose heading is one of these, letters' case aside.
  std::optional<std::size_t> column_named(std::span<const std::string_view> names) const;
  /// Error `column_twice` where two headings are the same, letters' case aside.
  Result<void> check_headings() const;
  /// `error` at that cell.
  std::unexpected<Error> at(const Row& row, std::size_t column, Error error) const;
};

/// Of bytes that came by another way, `file` their name. Errors as `read_plain_table`.
Result<PlainTable> plain_table_of(const std::string& bytes, const std::string& file);
/// CSV, TSV, XLSX or ODS. Errors: those of the file; `cell_problem`, `too_many_cells` (a row longer than the header).
Result<PlainTable> read_plain_table(Environment& environment, const std::string& file);

}  // namespace sherd::desk
