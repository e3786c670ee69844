#pragma once

#include <span>
#include <string>
#include <string_view>

namespace sherd::exchange {

/// What becomes of a cell that a spreadsheet would take for a formula: an apostrophe is put before it
/// (formula_cells.h), or it stays as it is, for programs.
enum class FormulaCells { marked, exact };

/// Writes delimited text as RFC 4180 describes it, but for line feeds as row ends: UTF-8 without byte order mark, cells
/// quoted only where they must be. What it writes reads back as the same cells.
class CsvWriter {
 public:
  explicit CsvWriter(char delimiter = ',', FormulaCells formulas = FormulaCells::marked)
      : delimiter_(delimiter), formulas_(formulas) {}
  void row(std::span<const std::string_view> cells);
  void row(std::span<const std::string> cells);
  const std::string& text() const { return text_; }
  std::string take() { return std::move(text_); }

 private:
  void cell(std::string_view written, bool alone);
  char delimiter_;
  FormulaCells formulas_;
  std::string text_;
};

}  // namespace sherd::exchange
