#pragma once

#include <span>
#include <string>
#include <string_view>

namespace sherd::exchange {

/// Writes delimited text as RFC 4180 describes it, but for line feeds as row ends: UTF-8 without byte order mark, cells
/// quoted only where they must be. A cell that a spreadsheet would take for a formula is written with an apostrophe
/// before it (formula_cells.h). What it writes reads back as the same cells.
class CsvWriter {
 public:
  explicit CsvWriter(char delimiter = ',') : delimiter_(delimiter) {}
  void row(std::span<const std::string_view> cells);
  void row(std::span<const std::string> cells);
  const std::string& text() const { return text_; }
  std::string take() { return std::move(text_); }

 private:
  void cell(std::string_view written, bool alone);
  char delimiter_;
  std::string text_;
};

}  // namespace sherd::exchange
