#include "exchange/sheets/record_scanner.h"

#include <fmt/format.h>

#include <cstring>

#include "base/text.h"
#include "exchange/sheets/formula_cells.h"

namespace sherd::exchange {
namespace {

std::size_t index_of(char c) { return static_cast<unsigned char>(c); }

std::int64_t line_breaks_in(std::string_view text) {
  std::int64_t breaks = 0;
  for (std::size_t i = 0; i < text.size(); ++i)
    breaks += text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.size() || text[i + 1] != '\n'));
  return breaks;
}

}  // namespace

RecordScanner::RecordScanner(std::string_view text, char delimiter, std::size_t max_cell_bytes, std::size_t max_columns)
    : at_(text.data()),
      end_(text.data() + text.size()),
      delimiter_(delimiter),
      max_cell_bytes_(max_cell_bytes),
      max_columns_(max_columns) {
  for (const char c : {delimiter, '\n', '\r'}) ends_cell_[index_of(c)] = true;
}

Error RecordScanner::at_cell(std::string code, std::string message, std::string hint, std::int64_t line) const {
  Error error{ErrorKind::data, std::move(code), std::move(message), {}, std::move(hint)};
  error.where.row = row_;
  error.where.line = line;
  error.where.column = std::to_string(cells_.size() + 1);
  return error;
}

Result<bool> RecordScanner::next() {
  if (at_ == end_) return false;
  cells_.clear();
  if (arena_used_) arena_.clear();
  arena_used_ = false;
  blank_ = true;
  ++row_;
  line_ = next_line_;
  for (;;) {
    if (cells_.size() == max_columns_) {
      return fail(
          at_cell("too_many_columns",
                  fmt::format("Row {} has more than {} columns.", row_, grouped(static_cast<long long>(max_columns_))),
                  "Check that the file is a table, one record a row.", line_));
    }
    SHERD_CHECK(take_cell());
    if (Cell& cell = cells_.back(); cell.problem.empty()) cell.text = without_mark(cell.text);
    blank_ = blank_ && cells_.back().text.empty();
    if (at_ == end_) return true;
    if (*at_ != delimiter_) break;
    ++at_;
  }
  take_newline();
  return true;
}

Result<void> RecordScanner::take_cell() {
  if (at_ != end_ && *at_ == '"') return take_quoted();
  const char* const start = at_;
  while (at_ != end_ && !ends_cell_[index_of(*at_)]) ++at_;
  const auto size = static_cast<std::size_t>(at_ - start);
  if (size > max_cell_bytes_) {
    return fail(
        at_cell("cell_too_large",
                fmt::format("The cell in row {}, column {} holds {} bytes; the limit is {}.", row_, cells_.size() + 1,
                            grouped(static_cast<long long>(size)), grouped(static_cast<long long>(max_cell_bytes_))),
                "Shorten the cell, or check that the file is a table.", next_line_));
  }
  cells_.push_back({{start, size}, {}});
  return {};
}

Result<void> RecordScanner::take_quoted() {
  const std::int64_t opened = next_line_;
  const char* const start = ++at_;
  bool doubled = false;
  for (;;) {
    const auto* const mark = static_cast<const char*>(std::memchr(at_, '"', static_cast<std::size_t>(end_ - at_)));
    if (mark == nullptr) {
      return fail(at_cell("quote_not_closed",
                          fmt::format("A quotation mark opened in row {}, line {}, column {} is never closed.", row_,
                                      opened, cells_.size() + 1),
                          "Close it, or double a mark that belongs to the text of a quoted cell.", opened));
    }
    at_ = mark + 1;
    if (at_ == end_ || *at_ != '"') break;
    doubled = true;
    ++at_;
  }
  const std::string_view inside(start, static_cast<std::size_t>(at_ - 1 - start));
  next_line_ += line_breaks_in(inside);
  const char* const after = at_;
  while (at_ != end_ && !ends_cell_[index_of(*at_)]) ++at_;
  const std::string_view rest(after, static_cast<std::size_t>(at_ - after));
  if (inside.size() + rest.size() > max_cell_bytes_) {
    return fail(at_cell("cell_too_large",
                        fmt::format("The cell in row {}, column {} holds {} bytes; the limit is {}.", row_,
                                    cells_.size() + 1, grouped(static_cast<long long>(inside.size() + rest.size())),
                                    grouped(static_cast<long long>(max_cell_bytes_))),
                        "Shorten the cell, or check that a quotation mark is closed where it should be.", opened));
  }
  Cell cell{doubled ? without_doubled_marks(inside) : inside, {}};
  if (!rest.empty()) {
    arena_used_ = true;
    char* const joined = arena_.room(cell.text.size() + rest.size());
    std::ranges::copy(rest, std::ranges::copy(cell.text, joined).out);
    cell = {{joined, cell.text.size() + rest.size()}, "text follows the closing quotation mark"};
  }
  cells_.push_back(cell);
  return {};
}

std::string_view RecordScanner::without_doubled_marks(std::string_view inside) {
  arena_used_ = true;
  char* const copy = arena_.room(inside.size());
  std::size_t size = 0;
  for (std::size_t i = 0; i < inside.size(); ++i) {
    copy[size++] = inside[i];
    if (inside[i] == '"') ++i;
  }
  return {copy, size};
}

void RecordScanner::take_newline() {
  const bool carriage = *at_ == '\r';
  ++at_;
  if (carriage && at_ != end_ && *at_ == '\n') ++at_;
  ++next_line_;
}

}  // namespace sherd::exchange
