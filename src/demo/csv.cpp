#include "demo/csv.h"

#include <algorithm>

#include "base/numbers.h"
#include "model/kind_spec.h"
#include "model/year.h"

namespace sherd::demo {

namespace {

std::unexpected<Error> bad_cell(const ColumnSpec& column, const std::string& text, std::size_t row) {
  return fail(ErrorKind::internal, "bad_table",
              "row " + std::to_string(row + 1) + ", column " + column.name + ": \"" + text + "\" cannot be read");
}

Result<std::int64_t> integer_of(CellType type, const std::string& text) {
  SHERD_TRY(const std::int64_t value, parse_scaled(text, decimals(type)));
  return type == CellType::year ? from_historical(value).value : value;
}

}  // namespace

Result<Table> table_of(Kind kind, const Rows& rows) {
  Table table(kind);
  const KindSpec& spec = kind_spec(kind);
  for (std::size_t c = 0; c < rows.front().size(); ++c) {
    const ColumnSpec* column = spec.column(rows.front()[c]);
    if (column == nullptr)
      return fail(ErrorKind::internal, "bad_table", spec.name + " has no column " + rows.front()[c]);
    Column& to = table.add(column->name, column->type);
    for (std::size_t r = 1; r < rows.size(); ++r) {
      const std::string& text = rows[r][c];
      if (text.empty()) {
        to.push_null();
      } else if (is_text(column->type)) {
        if (column->type == CellType::word && std::ranges::find(column->words, text) == column->words.end())
          return bad_cell(*column, text, r);
        to.push_text(text);
      } else {
        const auto value = integer_of(column->type, text);
        if (!value) return bad_cell(*column, text, r);
        to.push_integer(*value);
      }
    }
  }
  return table;
}

Rows rows_of(const Table& table) {
  Rows rows(table.rows() + 1);
  for (std::size_t c = 0; c < table.columns().size(); ++c) {
    const Column& column = table.columns()[c];
    bool used = false;
    for (std::size_t r = 0; r < table.rows() && !used; ++r) used = !column.is_null(r);
    if (!used) continue;
    rows[0].push_back(table.names()[c]);
    for (std::size_t r = 0; r < table.rows(); ++r) rows[r + 1].push_back(cell_text(column, r));
  }
  return rows;
}

}  // namespace sherd::demo
