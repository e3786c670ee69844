#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/text.h"
#include "desk/assemblage/compare_input.h"
#include "desk/assemblage/table_cells.h"

namespace sherd::desk {

namespace {

/// A year of the middle: the mean of one or two columns; none where a cell is blank. Errors: `no_such_year` (0),
/// `ranges_reversed`.
Result<std::optional<double>> year_at(const PlainTable& table, const PlainTable::Row& row,
                                      const std::vector<std::size_t>& columns) {
  std::vector<double> years;
  for (const std::size_t column : columns) {
    if (row.cells[column].empty()) return std::optional<double>{};
    SHERD_TRY(const double year, number_at(table, row, column));
    if (year == 0) {
      return table.at(
          row, column,
          {.code = "no_such_year", .message = "there is no year 0", .hint = "1 BC is -1, and 1 follows it"});
    }
    years.push_back(year < 0 ? year + 1 : year);
  }
  if (years.size() == 2 && years[0] > years[1]) {
    return table.at(row, columns[0],
                    {.code = "ranges_reversed",
                     .message = "begins in " + row.cells[columns[0]] + " and ends in " + row.cells[columns[1]],
                     .hint = "exchange the two years, or name the columns in their order: the earliest first"});
  }
  double sum = 0;
  for (const double year : years) sum += year;
  return std::optional(sum / static_cast<double>(years.size()));
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

Result<void> refuse(const char* option, bool given) {
  if (!given) return {};
  return fail(ErrorKind::usage, "not_for_this", fmt::format("--{} is for a store; this is a table", option),
              "rows and columns of a table stand in it");
}

}  // namespace

Result<bool> is_store(const std::string& address, Environment& environment) {
  if (address.find("://") != std::string::npos) return true;
  if (lower(address).ends_with(".sherds")) return true;  // a store is not read through to know that it is one
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
  SHERD_TRY(const PlainTable table, read_amounts(request, environment));
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
  if (!out.counts) {
    out.warnings.emplace_back(request.how == "difference"
                                  ? "the table has decimals: chi-square and p hold for pseudo-counts of vessels, and "
                                    "not for percents, weights or EVE as they are"
                                  : "the table has decimals: what rests on counting things is not given");
  }
  return out;
}

}  // namespace sherd::desk
