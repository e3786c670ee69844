#include "store/cell.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "base/numbers.h"
#include "base/text.h"
#include "model/year.h"

namespace sherd::store {

namespace {

std::unexpected<Error> in_column(Error error, std::string_view column) {
  error.message = fmt::format("{}: {}", column, error.message);
  error.where.column = column;
  return std::unexpected(std::move(error));
}

Result<Cell> parse_word(const StoredColumn& column, std::string_view typed) {
  const auto& words = column.spec->words;
  if (std::ranges::find(words, typed) != words.end()) return Cell{{}, std::string(typed)};
  const std::vector<std::string> known(words.begin(), words.end());
  const std::string near = did_you_mean(typed, known);
  return in_column({ErrorKind::data,
                    "not_in_list",
                    fmt::format("\"{}\" is not one of its words", shortened(typed, 40)),
                    {},
                    near.empty() ? "One of: " + join(known, ", ") : near},
                   column.name);
}

}  // namespace

std::string outside_text(const StoredColumn& column, const Cell& cell) {
  if (is_text(column.type)) return cell.text;
  return cell.integer ? value_text(column.type, *cell.integer) : std::string();
}

Result<Cell> parse_cell(const StoredColumn& column, std::string_view typed) {
  if (typed.empty() && column.spec != nullptr && column.spec->required) {
    return in_column({ErrorKind::data, "required", "may not be blank", {}, "Give a value"}, column.name);
  }
  if (typed.empty()) return Cell{};
  if (is_text(column.type)) SHERD_CHECK(check_text(column.name, typed));
  if (column.type == CellType::word && column.spec != nullptr) return parse_word(column, typed);
  if (is_text(column.type)) return Cell{{}, std::string(typed)};
  const auto value = parse_scaled(typed, decimals(column.type));
  if (!value) return in_column(value.error(), column.name);
  return Cell{column.type == CellType::year ? from_historical(*value).value : *value, {}};
}

void copy_cell(const StoredColumn& column, const Cell& cell, Column& to) {
  if (is_text(column.type)) {
    to.set_text(0, cell.text);
  } else {
    to.set_integer(0, cell.integer.value_or(Column::kNull));
  }
}

std::string row_name(const Versioned& table, const Table& rows, std::size_t row) {
  std::vector<std::string> parts;
  for (const StoredColumn& column : table.columns) {
    if (column.spec == nullptr || !column.spec->key) continue;
    const Column* cells = rows.find(column.name);
    if (cells != nullptr && !cells->is_null(row)) parts.push_back(cell_text(*cells, row));
  }
  return parts.empty() ? std::string(rows.find("uid")->text(row)) : join(parts, ", ");
}

Result<void> check_text(std::string_view column, std::string_view text) {
  const bool has_nul = text.find('\0') != std::string_view::npos;
  if (!has_nul && is_utf8(text)) return {};
  return in_column({ErrorKind::data,
                    "not_text",
                    has_nul ? "holds a NUL character, which no text has" : "is not UTF-8 text",
                    {},
                    "Save the file as text in UTF-8 and read it again"},
                   column);
}

std::string readable(std::string_view text) {
  if (check_text({}, text)) return std::string(text);
  std::string out;
  while (!text.empty()) {
    std::size_t size = 1;
    while (size < 4 && size < text.size() && !is_utf8(text.substr(0, size))) ++size;
    if (text.front() != '\0' && is_utf8(text.substr(0, size))) {
      out += text.substr(0, size);
    } else {
      out += "\xEF\xBF\xBD";
      size = 1;
    }
    text.remove_prefix(size);
  }
  return out;
}

}  // namespace sherd::store
