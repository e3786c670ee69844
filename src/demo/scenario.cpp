#include "demo/scenario.h"

#include <algorithm>

#include "base/numbers.h"
#include "base/text.h"
#include "demo/csv.h"
#include "model/rows.h"
#include "sherd_demo_data.h"

namespace sherd::demo {

namespace {

Error named(Error error, std::string_view table) {
  error.message = "built-in table " + std::string(table) + ": " + error.message;
  return error;
}

template <class T>
Result<std::vector<T>> model_rows(Kind kind, std::string_view name, std::string_view text) {
  const auto rows = parse_csv(text);
  if (!rows) return fail(named(rows.error(), name));
  const auto table = table_of(kind, *rows);
  if (!table) return fail(named(table.error(), name));
  return rows_from<T>(*table);
}

/// The demo's own tables, which are no kind of the record: cells by the header's words.
class PlainTable {
 public:
  static Result<PlainTable> read(std::string_view name, std::string_view text, const std::vector<std::string>& header) {
    auto rows = parse_csv(text);
    if (!rows) return fail(named(rows.error(), name));
    if (rows->front() != header)
      return fail(named({ErrorKind::internal, "bad_table", "the header is not " + join(header, ","), {}, {}}, name));
    return PlainTable(std::string(name), std::move(*rows));
  }

  std::size_t rows() const { return rows_.size() - 1; }
  const std::string& text(std::size_t row, std::size_t column) const { return rows_[row + 1][column]; }
  /// In thousandths.
  Result<std::int64_t> thousandths(std::size_t row, std::size_t column) const {
    auto value = parse_scaled(text(row, column), 3);
    if (!value) return fail(named(value.error(), name_));
    return *value;
  }
  Result<std::int64_t> integer(std::size_t row, std::size_t column) const {
    SHERD_TRY(const std::int64_t value, thousandths(row, column));
    return value / 1000;
  }
  Result<Year> year(std::size_t row, std::size_t column) const {
    SHERD_TRY(const std::int64_t value, integer(row, column));
    return from_historical(value);
  }
  Result<double> real(std::size_t row, std::size_t column) const {
    SHERD_TRY(const std::int64_t value, thousandths(row, column));
    return static_cast<double>(value) / 1000.0;
  }

 private:
  PlainTable(std::string name, Rows rows) : name_(std::move(name)), rows_(std::move(rows)) {}
  std::string name_;
  Rows rows_;
};

Result<std::vector<TrueDate>> read_truth() {
  SHERD_TRY(const PlainTable table, PlainTable::read("truth", truth_csv, {"context", "began", "completed"}));
  std::vector<TrueDate> truth;
  for (std::size_t r = 0; r < table.rows(); ++r) {
    SHERD_TRY(const Year began, table.year(r, 1));
    SHERD_TRY(const Year completed, table.year(r, 2));
    truth.push_back({table.text(r, 0), began, completed});
  }
  return truth;
}

Result<std::vector<Supply>> read_supply() {
  SHERD_TRY(const PlainTable table,
            PlainTable::read("supply", supply_csv, {"context", "origin", "from", "to", "vessels", "wares", "source"}));
  std::vector<Supply> supply;
  for (std::size_t r = 0; r < table.rows(); ++r) {
    Supply row;
    row.context = table.text(r, 0);
    const std::string& origin = table.text(r, 1);
    row.origin = origin == "own" ? Origin::own : origin == "residual" ? Origin::residual : Origin::intrusive;
    SHERD_TRY(row.from, table.year(r, 2));
    SHERD_TRY(row.to, table.year(r, 3));
    SHERD_TRY(row.vessels, table.integer(r, 4));
    if (!table.text(r, 5).empty()) {
      for (const auto part : split(table.text(r, 5), ';')) row.wares.emplace_back(part);
    }
    row.source = table.text(r, 6);
    supply.push_back(std::move(row));
  }
  return supply;
}

Result<std::vector<Recipe>> read_recipes(const Scenario& scenario) {
  SHERD_TRY(const PlainTable table, PlainTable::read("recipes", recipes_csv,
                                                     {"fabric", "form", "decoration", "share", "pieces", "sherd_g",
                                                      "rim_from_mm", "rim_to_mm"}));
  std::vector<Recipe> recipes;
  for (std::size_t r = 0; r < table.rows(); ++r) {
    Recipe row{.fabric = table.text(r, 0), .form = table.text(r, 1), .decoration = table.text(r, 2)};
    SHERD_TRY(row.share, table.real(r, 3));
    SHERD_TRY(row.pieces, table.real(r, 4));
    SHERD_TRY(row.sherd_g, table.real(r, 5));
    SHERD_TRY(row.rim_from_mm, table.integer(r, 6));
    SHERD_TRY(row.rim_to_mm, table.integer(r, 7));
    const auto fabric = std::ranges::find(scenario.fabrics, row.fabric, &Fabric::fabric);
    const YearRange made = made_between(scenario.dates, scenario.fabrics, row.fabric, row.form, row.decoration);
    if (fabric == scenario.fabrics.end() || !made.closed())
      return fail(ErrorKind::internal, "bad_table", "built-in table recipes: no date for fabric " + row.fabric);
    row.ware_group = fabric->ware_group;
    row.earliest = *made.earliest;
    row.latest = *made.latest;
    recipes.push_back(std::move(row));
  }
  return recipes;
}

}  // namespace

YearRange made_between(std::span<const WareDate> dates, std::span<const Fabric> fabrics, std::string_view fabric,
                       std::string_view form, std::string_view decoration) {
  const WareDate* best = nullptr;
  int best_rank = -1;
  for (const WareDate& row : dates) {
    if (row.fabric != fabric || !row.region.empty()) continue;
    if (!row.form.empty() && row.form != form) continue;
    if (!row.decoration.empty() && row.decoration != decoration) continue;
    const int keys = (row.form.empty() ? 0 : 1) + (row.decoration.empty() ? 0 : 1);
    const int rank = 2 * keys + (row.decoration.empty() ? 0 : 1);
    if (rank > best_rank) {
      best = &row;
      best_rank = rank;
    }
  }
  if (best != nullptr) return {best->earliest, best->latest};
  const auto own = std::ranges::find(fabrics, fabric, &Fabric::fabric);
  return own == fabrics.end() ? YearRange{} : YearRange{own->earliest, own->latest};
}

Result<Scenario> read_scenario() {
  Scenario scenario;
  SHERD_TRY(scenario.contexts, model_rows<Context>(Kind::contexts, "contexts", contexts_csv));
  SHERD_TRY(scenario.relations, model_rows<Relation>(Kind::relations, "relations", relations_csv));
  SHERD_TRY(scenario.phases, model_rows<Phase>(Kind::phases, "phases", phases_csv));
  SHERD_TRY(scenario.fabrics, model_rows<Fabric>(Kind::fabrics, "fabrics", fabrics_csv));
  SHERD_TRY(scenario.forms, model_rows<Form>(Kind::forms, "forms", forms_csv));
  SHERD_TRY(scenario.dates, model_rows<WareDate>(Kind::dates, "dates", dates_csv));
  SHERD_TRY(scenario.truth, read_truth());
  SHERD_TRY(scenario.supply, read_supply());
  SHERD_TRY(scenario.recipes, read_recipes(scenario));
  return scenario;
}

}  // namespace sherd::demo
