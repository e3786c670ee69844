#include "base/csv.h"

#include <algorithm>
#include <charconv>

namespace sherd {

namespace {

/// Reads one cell from `at` on and leaves `at` behind its end (a comma, a line's end or the end of the text).
std::string take_cell(std::string_view text, std::size_t& at) {
  std::string cell;
  if (at < text.size() && text[at] == '"') {
    for (++at; at < text.size(); ++at) {
      if (text[at] == '"') {
        ++at;
        if (at >= text.size() || text[at] != '"') break;
      }
      cell += text[at];
    }
    return cell;
  }
  std::size_t end = std::min(text.find_first_of(",\n", at), text.size());
  if (end < text.size() && text[end] == '\n' && end > at && text[end - 1] == '\r') --end;
  cell = text.substr(at, end - at);
  at = end;
  return cell;
}

bool skip_line_end(std::string_view text, std::size_t& at) {
  if (at >= text.size()) return true;
  if (text.substr(at, 2) == "\r\n") ++at;
  return text[at++] == '\n';
}

std::string quoted(std::string_view cell) {
  if (cell.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(cell);
  std::string out = "\"";
  for (const char c : cell) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

std::unexpected<Error> bad_table(std::string message) {
  return fail(ErrorKind::internal, "bad_table", std::move(message));
}

}  // namespace

Result<bool> CsvCursor::next(std::vector<std::string>& row) {
  row.clear();
  if (at_ >= text_.size()) return false;
  while (true) {
    row.push_back(take_cell(text_, at_));
    if (at_ >= text_.size() || text_[at_] != ',') break;
    ++at_;
  }
  const std::string place = "row " + std::to_string(++rows_);
  if (!skip_line_end(text_, at_)) return bad_table(place + " has a stray quote");
  if (rows_ == 1) width_ = row.size();
  if (row.size() != width_)
    return bad_table(place + " has " + std::to_string(row.size()) + " cells, not " + std::to_string(width_));
  return true;
}

Result<CsvRows> parse_csv(std::string_view text) {
  CsvRows rows;
  CsvCursor cursor(text);
  std::vector<std::string> row;
  for (;;) {
    SHERD_TRY(const bool more, cursor.next(row));
    if (!more) break;
    rows.push_back(row);
  }
  if (rows.empty()) return bad_table("the table is empty");
  return rows;
}

std::string csv_text(const CsvRows& rows) {
  std::string out;
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (i > 0) out += ',';
      out += quoted(row[i]);
    }
    out += '\n';
  }
  return out;
}

Result<CsvTable> CsvTable::of(const CsvRows& rows, const std::vector<std::string_view>& columns) {
  if (rows.empty()) return bad_table("the table is empty");
  const std::vector<std::string>& header = rows.front();
  std::vector<std::size_t> places;
  CsvTable table;
  for (const std::string_view column : columns) {
    const auto found = std::ranges::find(header, column);
    if (found == header.end()) return bad_table("there is no column " + std::string(column));
    places.push_back(static_cast<std::size_t>(found - header.begin()));
    table.names_.emplace_back(column);
  }
  for (std::size_t r = 1; r < rows.size(); ++r) {
    if (rows[r].size() != header.size())
      return bad_table("row " + std::to_string(r + 1) + " has " + std::to_string(rows[r].size()) + " cells, not " +
                       std::to_string(header.size()));
    std::vector<std::string>& row = table.rows_.emplace_back();
    for (const std::size_t place : places) row.push_back(rows[r][place]);
  }
  return table;
}

Result<std::optional<std::int64_t>> CsvTable::integer(std::size_t row, std::size_t column) const {
  const std::string& cell = text(row, column);
  if (cell.empty()) return std::optional<std::int64_t>{};
  std::int64_t value = 0;
  const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
  if (error != std::errc{} || end != cell.data() + cell.size()) return bad(row, column, "is no whole number");
  return std::optional(value);
}

Result<std::optional<double>> CsvTable::number(std::size_t row, std::size_t column) const {
  const std::string& cell = text(row, column);
  if (cell.empty()) return std::optional<double>{};
  double value = 0;
  const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
  if (error != std::errc{} || end != cell.data() + cell.size()) return bad(row, column, "is no number");
  return std::optional(value);
}

std::unexpected<Error> CsvTable::bad(std::size_t row, std::size_t column, std::string_view why) const {
  return bad_table("row " + std::to_string(row + 2) + ", column " + names_[column] + ": \"" + text(row, column) +
                   "\" " + std::string(why));
}

}  // namespace sherd
