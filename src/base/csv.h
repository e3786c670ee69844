#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

/// The CSV of the tables that are built into the program (RFC 4180: commas, quotes, UTF-8). Tables from outside are
/// read by `exchange`, which also guesses delimiter and encoding.
namespace sherd {

using CsvRows = std::vector<std::vector<std::string>>;

/// All rows, the header among them. Lines end in LF or CRLF. Error `bad_table`: nothing there, a stray quote, or a row
/// with another number of cells than the header.
Result<CsvRows> parse_csv(std::string_view text);
/// The same, a row at a time, for tables that are large.
class CsvCursor {
 public:
  /// The text must outlive the cursor.
  explicit CsvCursor(std::string_view text) : text_(text) {}
  /// Puts the next row into `row`; false at the end. Errors as `parse_csv`, but for an empty text.
  Result<bool> next(std::vector<std::string>& row);

 private:
  std::string_view text_;
  std::size_t at_ = 0, rows_ = 0, width_ = 0;
};
/// Quotes only where they are needed; lines end in LF.
std::string csv_text(const CsvRows& rows);

/// Rows under a known header.
class CsvTable {
 public:
  /// `columns` in the order by which cells are asked for; the table may have more. Error `bad_table` where one is
  /// missing.
  static Result<CsvTable> of(const CsvRows& rows, const std::vector<std::string_view>& columns);

  std::size_t rows() const { return rows_.size(); }
  const std::string& text(std::size_t row, std::size_t column) const { return rows_[row][column]; }
  /// A whole number; nothing where the cell is blank. Error `bad_table`, naming row and column.
  Result<std::optional<std::int64_t>> integer(std::size_t row, std::size_t column) const;
  /// A decimal number; nothing where the cell is blank. Error `bad_table`, naming row and column.
  Result<std::optional<double>> number(std::size_t row, std::size_t column) const;
  /// `bad_table` at that cell, by the row's place in the file (the header is row 1).
  std::unexpected<Error> bad(std::size_t row, std::size_t column, std::string_view why) const;

 private:
  std::vector<std::string> names_;
  CsvRows rows_;
};

}  // namespace sherd
