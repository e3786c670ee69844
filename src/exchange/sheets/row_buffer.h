#pragma once

#include <vector>

#include "exchange/sheets/row_source.h"
#include "exchange/sheets/text_arena.h"

namespace sherd::exchange {

/// The row that a spreadsheet reader is filling.
class RowBuffer {
 public:
  explicit RowBuffer(const ReadLimits& limits) : limits_(limits) {}

  void start(std::int64_t row);
  /// A text at a fixed address until the next `start`.
  std::string_view keep(std::string_view text) { return arena_.keep(text); }
  /// Puts `cell`, whose views must live until the next `start`, into `count` columns from `column` (from 0) on; empty
  /// cells cost nothing. Errors: `too_many_columns`; `damaged_file` where a column is taken.
  Result<void> put(std::size_t column, Cell cell, std::size_t count = 1);

  std::span<const Cell> cells() const { return cells_; }
  bool blank() const { return cells_.empty(); }
  std::int64_t row() const { return row_; }
  /// An error at the cell that is being read.
  Error at_cell(std::string code, std::string message, std::string hint, std::size_t column) const;
  Error cell_too_large(std::size_t column) const;

 private:
  ReadLimits limits_;
  TextArena arena_;
  std::vector<Cell> cells_;
  std::int64_t row_ = 0;
};

/// "A", "Z", "AA" ... for column 0, 25, 26 ...
std::string column_letters(std::size_t column);
/// The error of a table with more rows than the limit.
Error too_many_rows(std::int64_t max_rows, std::int64_t row);
/// The sheet to read out of `names`: `wanted`, or where it is "" the first that is not hidden. Adds a warning
/// on the visible sheets that are left unread. Errors: `unknown_sheet`, `no_sheet`.
Result<std::size_t> choose_sheet(TableFormat& format, const std::vector<bool>& hidden, std::string_view wanted);

}  // namespace sherd::exchange
