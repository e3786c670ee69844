#include "exchange/sheets/write_csv.h"

#include <algorithm>

#include "exchange/sheets/formula_cells.h"

namespace sherd::exchange {

void CsvWriter::row(std::span<const std::string_view> cells) {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) text_ += delimiter_;
    cell(cells[i], cells.size() == 1);
  }
  text_ += '\n';
}

void CsvWriter::row(std::span<const std::string> cells) {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) text_ += delimiter_;
    cell(cells[i], cells.size() == 1);
  }
  text_ += '\n';
}

void CsvWriter::cell(std::string_view written, bool alone) {
  const bool mark = formulas_ == FormulaCells::marked && needs_mark(written);
  const std::string marked = mark ? "'" + std::string(written) : std::string();
  const std::string_view text = marked.empty() ? written : std::string_view(marked);
  const bool structural =
      std::ranges::any_of(text, [this](char c) { return c == delimiter_ || c == '"' || c == '\n' || c == '\r'; });
  // At the start of a file these would be taken for a byte order mark or for a line that names the delimiter.
  const bool misleading = text_.empty() && (text.starts_with("\xEF\xBB\xBF") || text.starts_with("sep="));
  if (!structural && !misleading && !(alone && text.empty())) {
    text_ += text;
    return;
  }
  text_ += '"';
  for (const char c : text) {
    if (c == '"') text_ += '"';
    text_ += c;
  }
  text_ += '"';
}

}  // namespace sherd::exchange
