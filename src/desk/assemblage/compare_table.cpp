#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/assemblage/compare_input.h"

namespace sherd::desk {

namespace {

constexpr int kPlaces = 9;
constexpr double kOne = 1e9;

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
  const auto scaled = parse_scaled(row.cells[column], kPlaces);
  if (!scaled) {
    return table.at(
        row, column,
        {.code = "not_a_number",
         .message = "\"" + row.cells[column] + "\" is no number",
         .hint = "where the column holds no amounts, set it aside: --aside \"" + table.columns[column] + "\""});
  }
  return static_cast<double>(*scaled) / kOne;
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

/// A year of the middle: the mean of one or two columns; none where a cell is blank.
Result<std::optional<double>> year_at(const PlainTable& table, const PlainTable::Row& row,
                                      const std::vector<std::size_t>& columns) {
  double sum = 0;
  for (const std::size_t column : columns) {
    if (row.cells[column].empty()) return std::optional<double>{};
    SHERD_TRY(const double year, number_at(table, row, column));
    sum += year < 0 ? year + 1 : year;
  }
  return std::optional(sum / static_cast<double>(columns.size()));
}

/// Columns by what they are for.
struct Columns {
  std::vector<std::size_t> amounts, dates;
  std::optional<std::size_t> groups;
};

Result<Columns> columns_of(const PlainTable& table, const CompareRequest& request) {
  Columns out;
  std::set<std::size_t> apart{0};
  for (const std::string& name : request.aside) {
    SHERD_TRY(const std::size_t column, column_of(table, name));
    apart.insert(column);
  }
  for (const std::string& name : request.dates) {
    SHERD_TRY(const std::size_t column, column_of(table, name));
    out.dates.push_back(column);
    apart.insert(column);
  }
  if (!request.groups.empty()) {
    SHERD_TRY(const std::size_t column, column_of(table, request.groups));
    out.groups = column;
    apart.insert(column);
  }
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    if (!apart.contains(i)) out.amounts.push_back(i);
  }
  return out;
}

Result<PlainTable> read(const CompareRequest& request, Environment& environment) {
  SHERD_TRY(PlainTable table, read_plain_table(environment, request.store));
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

Result<void> refuse(const char* option, bool given) {
  if (!given) return {};
  return fail(ErrorKind::usage, "not_for_this", fmt::format("--{} is for a store; this is a table", option),
              "rows and columns of a table stand in it");
}

}  // namespace

Result<bool> is_store(const std::string& address, Environment& environment) {
  if (address.find("://") != std::string::npos) return true;
  const auto bytes = environment.files->read(address);
  if (!bytes) {
    // Opening it as a store says best what is wrong, unless its name is that of a table.
    for (const std::string_view ending : {".csv", ".tsv", ".txt", ".xlsx", ".ods"}) {
      if (lower(address).ends_with(ending)) return fail(bytes.error());
    }
    return true;
  }
  return bytes->starts_with("SQLite format 3");
}

Result<CompareInput> input_of_table(const CompareRequest& request, Environment& environment) {
  SHERD_CHECK(refuse("rows", !request.rows.empty()));
  SHERD_CHECK(refuse("columns", !request.columns.empty()));
  SHERD_CHECK(refuse("measure", !request.measure.empty()));
  SHERD_CHECK(refuse("where", !request.where.empty()));
  SHERD_CHECK(refuse("layer", !request.layer.empty()));
  SHERD_CHECK(refuse("doubtful", !request.doubtful.empty()));
  SHERD_CHECK(refuse("unchecked", !request.unchecked.empty()));
  SHERD_CHECK(refuse("with", !request.with.empty()));
  SHERD_TRY(const PlainTable table, read(request, environment));
  SHERD_TRY(const Columns columns, columns_of(table, request));
  CompareInput out;
  out.warnings = table.warnings;
  out.provenance = provenance_of(table, environment);
  compare::CountTable& counts = out.table;
  for (const std::size_t column : columns.amounts) counts.column_labels.push_back(table.columns[column]);
  for (const PlainTable::Row& row : table.rows) {
    counts.row_labels.push_back(row.cells.front());
    for (const std::size_t column : columns.amounts) {
      SHERD_TRY(const double amount, amount_at(table, row, column));
      counts.counts.values.push_back(amount);
    }
    if (columns.groups) out.groups.push_back(row.cells[*columns.groups]);
    if (columns.dates.empty()) continue;
    SHERD_TRY(const auto year, year_at(table, row, columns.dates));
    out.years.push_back(year);
  }
  counts.counts.rows = counts.row_labels.size();
  counts.counts.columns = counts.column_labels.size();
  out.counts = compare::whole_numbers(counts);
  out.about.measure = out.counts ? "count" : "amount";
  if (!out.counts) out.warnings.emplace_back("the table has decimals: what rests on counting things is not given");
  return out;
}

Result<PlacesInput> places_of_table(const CompareRequest& request, Environment& environment) {
  SHERD_TRY(const PlainTable table, read(request, environment));
  if (request.columns.empty() || request.measure.empty()) {
    return fail(ErrorKind::usage, "no_column", "distance needs to know which column is which",
                "--measure names the column of amounts, --columns that of distances; the table has " +
                    join(std::span(table.columns).subspan(1), ", "));
  }
  SHERD_TRY(const std::size_t distance, column_of(table, request.columns));
  SHERD_TRY(const std::size_t amount, column_of(table, request.measure));
  std::optional<std::size_t> group;
  if (!request.groups.empty()) {
    SHERD_TRY(group, column_of(table, request.groups));
  }
  PlacesInput out;
  out.warnings = table.warnings;
  out.provenance = provenance_of(table, environment);
  std::vector<std::string> blank;
  for (const PlainTable::Row& row : table.rows) {
    if (row.cells[distance].empty() || row.cells[amount].empty()) {
      blank.push_back(row.cells.front());
      continue;
    }
    compare::Place place{.label = row.cells.front()};
    SHERD_TRY(place.distance, number_at(table, row, distance));
    SHERD_TRY(place.amount, amount_at(table, row, amount));
    if (group) place.group = row.cells[*group];
    out.places.push_back(std::move(place));
  }
  if (!blank.empty())
    out.warnings.push_back("left out, because the distance or the amount is blank: " + join(blank, ", "));
  return out;
}

}  // namespace sherd::desk
