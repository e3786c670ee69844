#include "desk/assemblage/table_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/numbers.h"
#include "base/text.h"

namespace sherd::desk {

namespace {

constexpr std::string_view kGivenTable = "table.csv";  // the name of a table that came in the request
constexpr int kPlaces = 9;

Result<void> check_labels(const PlainTable& table) {
  std::set<std::string> seen;
  for (const PlainTable::Row& row : table.rows) {
    const std::string& label = row.cells.front();
    if (label.empty()) {
      return table.at(row, 0, {.code = "no_label", .message = "the row has no label", .hint = "name every assemblage"});
    }
    if (!seen.insert(label).second) {
      return table.at(row, 0,
                      {.code = "label_twice",
                       .message = "\"" + label + "\" is there twice",
                       .hint = "add the two rows up, or give one another name"});
    }
  }
  std::set<std::string> columns;
  for (std::size_t i = 1; i < table.columns.size(); ++i) {
    if (!table.columns[i].empty() && columns.insert(table.columns[i]).second) continue;
    Error error{.code = table.columns[i].empty() ? "no_label" : "label_twice",
                .message = table.columns[i].empty() ? fmt::format("column {} has no heading", i + 1)
                                                    : "the heading \"" + table.columns[i] + "\" is there twice",
                .hint = "give every column a name of its own"};
    error.where.file = table.file;
    return fail(std::move(error));
  }
  return {};
}

}  // namespace

Result<double> real_of(std::string_view text) {
  constexpr int kFewer = 3;
  for (int places = kPlaces;; places -= kFewer) {
    const auto scaled = parse_scaled(text, places);
    if (scaled) return static_cast<double>(*scaled) / std::pow(10.0, places);
    if (scaled.error().code != "number_too_large" || places == 0) return fail(scaled.error());
  }
}

Result<std::size_t> column_of(const PlainTable& table, const std::string& name) {
  const auto at = std::ranges::find(table.columns, name);
  if (at != table.columns.end()) return static_cast<std::size_t>(at - table.columns.begin());
  Error error{.code = "no_column",
              .message = "the table has no column \"" + name + "\"",
              .hint = did_you_mean(name, table.columns)};
  error.where.file = table.file;
  return fail(std::move(error));
}

Result<double> number_at(const PlainTable& table, const PlainTable::Row& row, std::size_t column) {
  const auto number = real_of(row.cells[column]);
  if (number) return *number;
  if (number.error().code == "number_too_large") return table.at(row, column, number.error());
  const bool comma = parse_scaled(replace_all(row.cells[column], ",", ""), 0).has_value();
  return table.at(
      row, column,
      {.code = "not_a_number",
       .message = "\"" + row.cells[column] + "\" is no number",
       .hint = comma ? "write decimals with a point, and thousands without a mark between"
                     : "where the column holds no amounts, set it aside: --aside \"" + table.columns[column] + "\""});
}

/// An amount; a blank is none.
Result<double> amount_at(const PlainTable& table, const PlainTable::Row& row, std::size_t column) {
  if (row.cells[column].empty()) return 0.0;
  SHERD_TRY(const double amount, number_at(table, row, column));
  if (amount >= 0) return amount;
  return table.at(row, column,
                  {.code = "negative_count",
                   .message = row.cells[column] + " of a type cannot be",
                   .hint = "correct the amount; 0 and above are read"});
}

Result<PlainTable> read_amounts(const CompareRequest& request, Environment& environment) {
  auto read = request.table.empty() ? read_plain_table(environment, request.store)
                                    : plain_table_of(request.table, std::string(kGivenTable));
  if (!read) return fail(std::move(read).error());
  PlainTable table = std::move(*read);
  if (table.columns.size() < 2 || table.rows.empty()) {
    Error error{.code = "empty_table",
                .message = "the table has no amounts",
                .hint = "first row the headings, first column the labels, then a column a type"};
    error.where.file = table.file;
    return fail(std::move(error));
  }
  SHERD_CHECK(check_labels(table));
  return table;
}

Provenance provenance_of(const PlainTable& table, const Environment& environment) {
  Provenance out;
  out.version = environment.version;
  out.inputs = {"sha256:" + table.sha256};
  return out;
}

}  // namespace sherd::desk
