#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "base/text.h"
#include "desk/chemistry/composition_input.h"
#include "desk/chemistry/unit_words.h"
#include "desk/dates/plain_table.h"
#include "exchange/headings.h"
#include "exchange/readings/reading_tables.h"
#include "methods/chemistry/units.h"
#include "notation/analyte.h"
#include "reference/tables.h"

/// Compositions of a plain table: a row a sample, a column an analyte.
namespace sherd::desk {

namespace {

using chemistry::Cell;

struct TableAnalyte {
  std::size_t column = 0;
  std::string name;
  std::optional<FractionUnit> unit;
};

class Reader {
 public:
  Reader(const ChemistryRequest& request, const PlainTable& table) : request_(request), table_(table) {}

  Result<CompositionInput> run() {
    SHERD_CHECK(find_columns());
    SHERD_CHECK(settle_units());
    SHERD_CHECK(read_rows());
    return std::move(out_);
  }

 private:
  Error of_file(Error error) const {
    error.where.file = table_.file;
    return error;
  }

  Result<std::size_t> column_of(const std::string& name) const {
    const auto at = std::ranges::find(table_.columns, name);
    if (at != table_.columns.end()) return static_cast<std::size_t>(at - table_.columns.begin());
    return fail(of_file({.code = "no_column",
                         .message = "the table has no column \"" + name + "\"",
                         .hint = did_you_mean(name, table_.columns)}));
  }

  Result<void> find_columns() {
    if (!request_.id.empty()) {
      SHERD_TRY(id_, column_of(request_.id));
    } else {
      for (const char* name : {"reading", "sample", "id"}) {
        for (std::size_t i = 0; i < table_.columns.size() && !id_; ++i) {
          if (exchange::folded_heading(table_.columns[i]) == name) id_ = i;
        }
      }
    }
    const std::string by = request_.by.empty() ? "chem_group" : request_.by;
    if (!request_.by.empty() || std::ranges::find(table_.columns, by) != table_.columns.end()) {
      SHERD_TRY(by_, column_of(by));
      out_.about.groups_by = by;
    }
    find_analytes();
    if (analytes_.empty())
      return fail(of_file({.code = "no_analytes",
                           .message = "the table has no column of an element or oxide, and none of numbers",
                           .hint = "headings such as Fe_ppm, Al2O3_pct or Zr are known"}));
    std::set<std::string> seen;
    for (const TableAnalyte& analyte : analytes_) {
      if (seen.insert(analyte.name).second) continue;
      return fail(of_file({.code = "analyte_twice",
                           .message = "two columns are amounts of " + analyte.name,
                           .hint = "leave one of them in the table, or name the other as what it is"}));
    }
    return {};
  }

  /// Columns with a unit; else elements and oxides; else numbers.
  void find_analytes() {
    std::vector<TableAnalyte> with_unit;
    std::vector<TableAnalyte> without;
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
      if (i == id_ || i == by_) continue;
      const auto heading = notation::read_analyte_heading(table_.columns[i], reference::atomic_weights());
      if (!heading || heading->part != HeadingPart::value) continue;
      (heading->unit ? with_unit : without).push_back({i, formula_text(heading->formula), heading->unit});
    }
    analytes_ = with_unit;
    analytes_.insert(analytes_.end(), without.begin(), without.end());
    std::ranges::sort(analytes_, {}, &TableAnalyte::column);
    if (!analytes_.empty()) return;
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
      if (i == id_ || i == by_ || !is_numeric(i)) continue;
      analytes_.push_back({i, table_.columns[i], {}});
    }
    if (!analytes_.empty())
      out_.warnings.push_back("no heading is an element or oxide: every column of numbers is taken as one");
  }

  bool is_numeric(std::size_t column) const {
    bool number = false;
    for (const PlainTable::Row& row : table_.rows) {
      const auto cell = exchange::read_amount_cell(row.cells[column], '.');
      if (!cell) return false;
      number = number || cell->value.has_value();
    }
    return number;
  }

  /// All columns say a unit, or none does; else it has to be said.
  Result<void> settle_units() {
    SHERD_TRY(const UnitsSaid said, read_units(request_.units, reference::atomic_weights()));
    std::vector<std::string> open;
    for (TableAnalyte& analyte : analytes_) {
      if (analyte.unit) continue;
      const auto own = said.of.find(analyte.name);
      analyte.unit = own != said.of.end() ? std::optional(own->second) : said.all;
      if (!analyte.unit) open.push_back(analyte.name);
    }
    if (open.empty()) {
      has_units_ = true;
      return {};
    }
    if (open.size() < analytes_.size())
      return fail(of_file({.code = "unit_unknown",
                           .message = "some columns say their unit, but not " + join(open, ", "),
                           .hint = "write it in the heading (Fe_ppm, Al2O3_pct), or say --units"}));
    out_.warnings.emplace_back("no column says its unit: all are taken to be in one and the same; --units says which");
    return {};
  }

  bool decimal_comma() const {
    bool comma = false;
    for (const PlainTable::Row& row : table_.rows) {
      for (const TableAnalyte& analyte : analytes_) {
        const std::string& cell = row.cells[analyte.column];
        const bool number = cell.find_first_of("0123456789") != std::string::npos;
        if (number && cell.find('.') != std::string::npos) return false;
        comma = comma || (number && cell.find(',') != std::string::npos);
      }
    }
    return comma;
  }

  Result<void> read_rows() {
    chemistry::Composition& all = out_.composition;
    for (const TableAnalyte& analyte : analytes_) {
      const bool ppm = analyte.unit == FractionUnit::ppm;
      all.analytes.push_back({analyte.name, ppm ? chemistry::Unit::ppm : chemistry::Unit::percent});
    }
    const char decimal = decimal_comma() ? ',' : '.';
    if (decimal == ',') out_.warnings.emplace_back("numbers were read with a decimal comma");
    std::set<std::string> seen;
    for (const PlainTable::Row& row : table_.rows) {
      std::string id = id_ ? row.cells[*id_] : std::to_string(row.row);
      if (id.empty()) id = std::to_string(row.row);
      if (!seen.insert(id).second) {
        return table_.at(row, id_.value_or(0),
                         {.code = "label_twice",
                          .message = "\"" + id + "\" is there twice",
                          .hint = "give one another name; readings of one sample are averaged in a store"});
      }
      all.ids.push_back(std::move(id));
      if (by_) all.groups.push_back(row.cells[*by_]);
      for (const TableAnalyte& analyte : analytes_) SHERD_CHECK(read_cell(row, analyte, decimal));
    }
    if (all.ids.empty()) return fail(of_file({.code = "empty_table", .message = "the table has no rows"}));
    all.values.rows = all.ids.size();
    all.values.columns = analytes_.size();
    out_.about.unit = has_units_ ? "said" : "";
    return {};
  }

  Result<void> read_cell(const PlainTable::Row& row, const TableAnalyte& analyte, char decimal) {
    const auto cell = exchange::read_amount_cell(row.cells[analyte.column], decimal);
    if (!cell) return table_.at(row, analyte.column, cell.error());
    double value = std::numeric_limits<double>::quiet_NaN();
    Cell state = Cell::missing;
    if (cell->state == AmountState::measured) {
      value = static_cast<double>(*cell->value) / 1e6;
      state = Cell::measured;
    } else if (cell->state == AmountState::below) {
      if (cell->limit) value = static_cast<double>(*cell->limit) / 1e6;
      state = Cell::below;
    }
    out_.composition.values.values.push_back(value);
    out_.composition.cells.push_back(state);
    return {};
  }

  const ChemistryRequest& request_;
  const PlainTable& table_;
  CompositionInput out_;
  std::optional<std::size_t> id_, by_;
  std::vector<TableAnalyte> analytes_;
  bool has_units_ = false;
};

}  // namespace

Result<CompositionInput> composition_of_table(const ChemistryRequest& request, Environment& environment) {
  if (!request.where.empty() || !request.drift.empty() || !request.corrected.empty())
    return fail(ErrorKind::usage, "not_for_this", "--where, --drift and --corrected are for a store; this is a table",
                "--without and --groups choose rows of a table");
  SHERD_TRY(const PlainTable table, read_plain_table(environment, request.store));
  SHERD_TRY(CompositionInput out, Reader(request, table).run());
  out.warnings.insert(out.warnings.begin(), table.warnings.begin(), table.warnings.end());
  out.provenance.version = environment.version;
  out.provenance.inputs = {"sha256:" + table.sha256};
  SHERD_CHECK(choose(request, out));
  finish(out);
  out.about.readings = out.about.rows;  // a row of a table is a sample
  return out;
}

}  // namespace sherd::desk
