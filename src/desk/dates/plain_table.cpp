#include "desk/dates/plain_table.h"

#include <algorithm>

#include "base/hash.h"
#include "base/text.h"
#include "exchange/sheets/row_source.h"

namespace sherd::desk {

std::optional<std::size_t> PlainTable::column_named(std::span<const std::string_view> names) const {
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (std::ranges::find(names, lower(columns[i])) != names.end()) return i;
  }
  return std::nullopt;
}

Result<void> PlainTable::check_headings() const {
  for (std::size_t i = 0; i < columns.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      if (columns[i].empty() || lower(columns[i]) != lower(columns[k])) continue;
      Error error{.code = "column_twice",
                  .message = "the table has two columns \"" + columns[i] + "\"",
                  .hint = "leave out one of them, or give it another heading"};
      error.where.file = file;
      return fail(std::move(error));
    }
  }
  return {};
}

std::unexpected<Error> PlainTable::at(const Row& row, std::size_t column, Error error) const {
  error.where.file = file;
  error.where.row = row.row;
  error.where.column = columns[column];
  return fail(std::move(error));
}

namespace {

Result<PlainTable::Row> row_of(const PlainTable& table, const exchange::SheetRow& source) {
  PlainTable::Row row{source.row, {}};
  for (std::size_t i = 0; i < source.cells.size(); ++i) {
    const std::string text(trim(source.cells[i].text));
    if (i >= table.columns.size()) {
      if (text.empty()) continue;
      return table.at(row, table.columns.size() - 1,
                      {.code = "too_many_cells",
                       .message = "the row has a cell \"" + text + "\" behind the last heading",
                       .hint = "give every column a heading"});
    }
    if (!source.cells[i].problem.empty())
      return table.at(row, i, {.code = "cell_problem", .message = std::string(source.cells[i].problem)});
    row.cells.push_back(text);
  }
  row.cells.resize(table.columns.size());
  return row;
}

}  // namespace

Result<PlainTable> read_plain_table(Environment& environment, const std::string& file) {
  SHERD_TRY(const std::string bytes, environment.files->read(file));
  return plain_table_of(bytes, file);
}

Result<PlainTable> plain_table_of(const std::string& bytes, const std::string& file) {
  PlainTable table{.file = file, .sha256 = sha256(bytes)};
  const auto of_file = [&](Error error) {
    if (error.where.file.empty()) error.where.file = file;
    return fail(std::move(error));
  };
  auto source = exchange::open_table(bytes, file);
  if (!source) return of_file(source.error());
  table.warnings = (*source)->format().warnings;
  exchange::SheetRow row;
  for (;;) {
    const auto any = (*source)->next(row);
    if (!any) return of_file(any.error());
    if (!*any) return table;
    if (table.columns.empty()) {
      for (const exchange::Cell& cell : row.cells) table.columns.emplace_back(trim(cell.text));
      while (!table.columns.empty() && table.columns.back().empty()) table.columns.pop_back();
      continue;
    }
    SHERD_TRY(PlainTable::Row read, row_of(table, row));
    table.rows.push_back(std::move(read));
  }
}

}  // namespace sherd::desk
