#include "desk/assemblage/tally_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/assemblage/table_cells.h"
#include "exchange/headings.h"
#include "exchange/synonyms.h"

namespace sherd::desk {

namespace {

/// A column of the table that fills one of ours, and what turns its unit into ours.
struct Source {
  std::size_t column = 0;
  double times = 1;
};

std::optional<Source> source_of(const PlainTable& table, const std::string& name) {
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    const std::string heading = exchange::folded_heading(table.columns[i]);
    if (heading == name) return Source{i, 1};
    const auto synonym = exchange::find_synonym("sherds", heading);
    if (!synonym || synonym->column != name) continue;
    const auto times = parse_scaled(synonym->times.empty() ? "1" : synonym->times, 6);
    return Source{i, times ? static_cast<double>(*times) / 1e6 : 1};
  }
  return std::nullopt;
}

Result<std::optional<double>> amount_in(const PlainTable& table, const PlainTable::Row& row, std::size_t column) {
  const std::string& text = row.cells[column];
  if (text.empty()) return std::optional<double>{};
  const auto amount = real_of(text);
  if (!amount)
    return table.at(row, column,
                    {.code = "not_a_number",
                     .message = "\"" + text + "\" is no amount",
                     .hint = "leave the cell blank where nothing was recorded"});
  constexpr double kMost = 1e12;
  if (*amount > kMost)
    return table.at(row, column,
                    {.code = "number_too_large",
                     .message = text + " is too large an amount",
                     .hint = "correct the amount, or its unit"});
  if (*amount < 0)
    return table.at(row, column,
                    {.code = "negative_count",
                     .message = text + " cannot be an amount",
                     .hint = "correct the amount; 0 and above are read"});
  return std::optional(*amount);
}

Result<void> fill(const PlainTable& table, const Source& source, CellType type, Column& out) {
  const double unit = source.times * std::pow(10.0, decimals(type));
  for (const PlainTable::Row& row : table.rows) {
    SHERD_TRY(const auto amount, amount_in(table, row, source.column));
    if (amount && decimals(type) == 0 && std::floor(*amount) != *amount)
      return table.at(row, source.column,
                      {.code = "not_whole",
                       .message = row.cells[source.column] + " is no whole number",
                       .hint = "things are counted whole; compare takes tables with decimals"});
    amount ? out.push_integer(std::llround(*amount * unit)) : out.push_null();
  }
  return {};
}

Error no_column(const PlainTable& table, const std::string& field) {
  Error error{.code = "unknown_field",
              .message = "the table has no column \"" + field + "\"",
              .hint = did_you_mean(field, table.columns)};
  if (error.hint.empty()) error.hint = "its columns are " + join(table.columns, ", ");
  error.where.file = table.file;
  return error;
}

struct Measure {
  const char* name;
  CellType type;
};
constexpr std::array<Measure, 4> kMeasures{{{"count", CellType::count},
                                            {"weight_g", CellType::weight},
                                            {"vessels", CellType::count},
                                            {"rim_percent", CellType::percent}}};

/// The measures that there are; an EVE of a row is the percent of rim over a hundred.
Result<void> add_measures(const PlainTable& table, Table& lines, std::vector<std::string>& warnings) {
  bool any = false;
  for (const Measure& measure : kMeasures) {
    auto source = source_of(table, measure.name);
    if (!source && measure.type == CellType::percent) {
      const auto eve = std::ranges::find_if(
          table.columns, [](const std::string& heading) { return exchange::folded_heading(heading) == "eve"; });
      if (eve != table.columns.end()) {
        source = Source{static_cast<std::size_t>(eve - table.columns.begin()), 100};
        warnings.emplace_back("EVE of a row is added up as it stands: a vessel on several rows may count beyond 1.00");
      }
    }
    if (!source) continue;
    any = true;
    SHERD_CHECK(fill(table, *source, measure.type, lines.add(measure.name, measure.type)));
  }
  if (any) return {};
  Error error{.code = "no_measure",
              .message = "the table has none of the columns count, weight_g, vessels and rim_percent",
              .hint = "its columns are " + join(table.columns, ", ")};
  error.where.file = table.file;
  return fail(std::move(error));
}

void add_text(const PlainTable& table, std::size_t from, const std::string& name, Table& lines) {
  Column& out = lines.add(name, CellType::text);
  for (const PlainTable::Row& row : table.rows) out.push_text(row.cells[from]);
}

}  // namespace

Result<TableLines> lines_of_table(const PlainTable& table, const std::vector<std::string>& asked) {
  Table lines(Kind::sherds);
  std::vector<std::string> warnings;
  SHERD_CHECK(add_measures(table, lines, warnings));
  if (const auto vessel = source_of(table, "vessel")) add_text(table, vessel->column, "vessel", lines);
  for (const std::string& field : asked) {
    if (lines.find(field) != nullptr) continue;
    const auto exact = std::ranges::find(table.columns, field);
    auto source = exact == table.columns.end()
                      ? source_of(table, field)
                      : std::optional(Source{static_cast<std::size_t>(exact - table.columns.begin()), 1});
    if (!source) return fail(no_column(table, field));
    add_text(table, source->column, field, lines);
  }
  return TableLines{LineFields::of(std::move(lines)), std::move(warnings)};
}

}  // namespace sherd::desk
