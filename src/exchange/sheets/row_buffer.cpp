#include "exchange/sheets/row_buffer.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "exchange/sheets/zip_file.h"

namespace sherd::exchange {

void RowBuffer::start(std::int64_t row) {
  row_ = row;
  cells_.clear();
  arena_.clear();
}

Error RowBuffer::at_cell(std::string code, std::string message, std::string hint, std::size_t column) const {
  Error error{ErrorKind::data, std::move(code), std::move(message), {}, std::move(hint)};
  error.where.row = row_;
  error.where.column = column_letters(column);
  return error;
}

Error RowBuffer::cell_too_large(std::size_t column) const {
  return at_cell("cell_too_large",
                 fmt::format("The cell {}{} holds more than {} bytes.", column_letters(column), row_,
                             grouped(static_cast<long long>(limits_.max_cell_bytes))),
                 "Shorten the cell, or check that the sheet is a table.", column);
}

Result<void> RowBuffer::put(std::size_t column, Cell cell, std::size_t count) {
  if (cell.text.empty() && cell.problem.empty()) return {};
  if (count > limits_.max_columns || column > limits_.max_columns - count) {
    return fail(at_cell(
        "too_many_columns",
        fmt::format("Row {} has more than {} columns.", row_, grouped(static_cast<long long>(limits_.max_columns))),
        "Check that the sheet is a table, one record a row.", limits_.max_columns));
  }
  if (cells_.size() < column + count) cells_.resize(column + count);
  for (std::size_t i = column; i < column + count; ++i) {
    if (!cells_[i].text.empty() || !cells_[i].problem.empty())
      return damaged(fmt::format("The file is damaged: it stores the cell {}{} twice.", column_letters(i), row_));
    cells_[i] = cell;
  }
  return {};
}

std::string column_letters(std::size_t column) {
  std::string letters;
  for (std::size_t left = column + 1; left > 0; left = (left - 1) / 26)
    letters.insert(letters.begin(), static_cast<char>('A' + static_cast<char>((left - 1) % 26)));
  return letters;
}

Error too_many_rows(std::int64_t max_rows, std::int64_t row) {
  Error error{ErrorKind::data,
              "too_many_rows",
              fmt::format("The table has more than {} rows.", grouped(max_rows)),
              {},
              "Read it in parts."};
  error.where.row = row;
  return error;
}

Result<std::size_t> choose_sheet(TableFormat& format, const std::vector<bool>& hidden, std::string_view wanted) {
  const std::vector<std::string>& names = format.sheets;
  if (names.empty())
    return fail("no_sheet", "The file has no sheet with cells.", "Save the table again and read that.");
  std::size_t chosen = 0;
  if (!wanted.empty()) {
    const auto found = std::ranges::find(names, wanted);
    if (found == names.end()) {
      std::string hint = did_you_mean(wanted, names);
      if (!hint.empty()) hint.front() = 'D';
      return fail("unknown_sheet",
                  fmt::format("There is no sheet \"{}\"; the file has \"{}\".", wanted, fmt::join(names, "\", \"")),
                  hint.empty() ? "Give the name of one of them." : std::move(hint));
    }
    chosen = static_cast<std::size_t>(found - names.begin());
  } else {
    const auto visible = std::ranges::find(hidden, false);
    if (visible != hidden.end()) chosen = static_cast<std::size_t>(visible - hidden.begin());
    std::vector<std::string> others;
    for (std::size_t i = 0; i < names.size(); ++i)
      if (i != chosen && !hidden[i]) others.push_back(names[i]);
    if (!others.empty()) {
      format.warnings.push_back(
          fmt::format("The sheet \"{}\" was read; not read: \"{}\". Name a sheet to read another.", names[chosen],
                      fmt::join(others, "\", \"")));
    }
  }
  format.sheet = names[chosen];
  return chosen;
}

}  // namespace sherd::exchange
