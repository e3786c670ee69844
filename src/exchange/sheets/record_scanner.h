#pragma once

#include <array>
#include <cstdint>
#include <string_view>
#include <vector>

#include "exchange/sheets/row_source.h"
#include "exchange/sheets/text_arena.h"

namespace sherd::exchange {

/// Cuts delimited text into records; the rules are those of `open_delimited`. The text must outlive the scanner.
class RecordScanner {
 public:
  RecordScanner(std::string_view text, char delimiter, std::size_t max_cell_bytes, std::size_t max_columns);

  /// The next record, blank ones too; false at the end. Errors: `quote_not_closed`, `cell_too_large`,
  /// `too_many_columns`.
  Result<bool> next();

  const std::vector<Cell>& cells() const { return cells_; }
  bool blank() const { return blank_; }  ///< every cell of the record is empty
  std::int64_t row() const { return row_; }
  std::int64_t line() const { return line_; }  ///< where the record starts

  /// Where the text that is left starts on another line than 1.
  void start_at_line(std::int64_t line) { next_line_ = line; }

 private:
  Result<void> take_cell();
  Result<void> take_quoted();
  void take_newline();
  std::string_view without_doubled_marks(std::string_view inside);
  Error at_cell(std::string code, std::string message, std::string hint, std::int64_t line) const;

  const char* at_;
  const char* end_;
  char delimiter_;
  std::size_t max_cell_bytes_;
  std::size_t max_columns_;
  std::array<bool, 256> ends_cell_{};
  std::vector<Cell> cells_;
  TextArena arena_;
  bool arena_used_ = false;
  bool blank_ = true;
  std::int64_t row_ = 0;
  std::int64_t line_ = 0;
  std::int64_t next_line_ = 1;
};

}  // namespace sherd::exchange
