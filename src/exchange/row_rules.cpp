#include "exchange/row_rules.h"

#include <utility>

#include "base/numbers.h"
#include "model/kind_spec.h"
#include "model/table.h"
#include "model/words.h"

namespace sherd::exchange {

std::optional<std::int64_t> RowView::integer(std::string_view column) const {
  for (std::size_t i = 0; i < spec_->columns.size(); ++i) {
    if (spec_->columns[i].name == column) {
      const std::int64_t value = (*values_)[i].integer;
      return value == Column::kNull ? std::nullopt : std::optional(value);
    }
  }
  return std::nullopt;
}

std::string_view RowView::text(std::string_view column) const {
  for (std::size_t i = 0; i < spec_->columns.size(); ++i) {
    if (spec_->columns[i].name == column) return (*values_)[i].text;
  }
  return {};
}

namespace {

using Problems = std::vector<Problem>;

void add(Problems& problems, std::string column, std::string code, std::string text, std::string message,
         std::string hint = {}) {
  problems.push_back({0, {}, std::move(column), std::move(code), std::move(text), std::move(message), std::move(hint)});
}

void range_rule(Problems& problems, const RowView& row, std::string_view from, std::string_view to) {
  const auto earliest = row.integer(from);
  const auto latest = row.integer(to);
  if (!earliest || !latest || *earliest <= *latest) return;
  const std::string end = value_text(CellType::year, *latest);
  add(problems, std::string(to), "ends_before_it_starts", end,
      "the date ends (" + end + ") before it starts (" + value_text(CellType::year, *earliest) + ")",
      "were the two exchanged? years before Christ are negative: -43");
}

void size_rule(Problems& problems, const RowView& row) {
  const auto least = row.integer("size_least_mm");
  const auto most = row.integer("size_most_mm");
  if (!least || !most || *least <= *most) return;
  const std::string end = value_text(CellType::length, *most);
  add(problems, "size_most_mm", "size_out_of_order", end,
      "the greatest size (" + end + " mm) is less than the least (" + value_text(CellType::length, *least) + " mm)",
      "were the two exchanged?");
}

void measure_rules(Problems& problems, const RowView& row) {
  range_rule(problems, row, "earliest", "latest");
  if (row.integer("holds_litres") == 0) add(problems, "holds_litres", "holds_nothing", "0", "a measure that holds 0 l");
}

void drawing_rule(Problems& problems, const RowView& row) {
  if (row.integer("catalogue") == 0)
    add(problems, "catalogue", "catalogue_of_zero", "0", "a catalogue number of 0", "the catalogue begins with 1");
}

void band_rule(Problems& problems, const RowView& row) {
  const auto from = row.integer("from_z_mm");
  const auto to = row.integer("to_z_mm");
  if (!from || !to || *from <= *to) return;
  const std::string end = value_text(CellType::coordinate, *to);
  add(problems, "to_z_mm", "size_out_of_order", end,
      "the band ends (" + end + " mm) below its beginning (" + value_text(CellType::coordinate, *from) + " mm)",
      "heights run from the base up: give the lower one as from_z_mm");
}

std::string percent_text(std::int64_t tenths) { return format_scaled(tenths, 1); }

void rim_rule(Problems& problems, const RowView& row) {
  const auto percent = row.integer("rim_percent");
  const std::int64_t rims = std::max<std::int64_t>(1, row.integer("rims").value_or(1));
  if (!percent || *percent <= 1000 * rims) return;
  const std::string on = rims == 1 ? "one rim" : std::to_string(rims) + " rims";
  add(problems, "rim_percent", "rim_percent_over_100", percent_text(*percent), percent_text(*percent) + " % on " + on,
      "100 % is a whole rim; where the line holds several rims, put their number in rims");
}

void base_rule(Problems& problems, const RowView& row) {
  const auto percent = row.integer("base_percent");
  const std::int64_t most = std::max<std::int64_t>(1, row.integer("count").value_or(1));
  if (!percent || *percent <= 1000 * most) return;
  add(problems, "base_percent", "base_percent_over_100", percent_text(*percent),
      percent_text(*percent) + " % on at most " + std::to_string(most) + (most == 1 ? " base" : " bases"),
      "100 % is a whole base");
}

void piece_rules(Problems& problems, const RowView& row) {
  for (const std::string_view part : {"rim_percent", "base_percent"}) {
    const auto percent = row.integer(part);
    if (!percent || *percent <= 1000) continue;
    add(problems, std::string(part), std::string(part) + "_over_100", percent_text(*percent),
        percent_text(*percent) + " % on one piece", "100 % is the whole circle");
  }
  const auto least = row.integer("rim_least_mm");
  const auto most = row.integer("rim_most_mm");
  if (!least || !most || *least <= *most) return;
  const std::string end = value_text(CellType::length, *most);
  add(problems, "rim_most_mm", "size_out_of_order", end,
      "the greatest diameter (" + end + " mm) is less than the least (" + value_text(CellType::length, *least) + " mm)",
      "were the two exchanged?");
}

void sherd_rules(Problems& problems, const RowView& row) {
  const auto count = row.integer("count");
  if (!count && !row.integer("weight_g")) {
    add(problems, "count", "no_quantity", "", "neither count nor weight is given", "give at least one of the two");
  }
  if (count == 0) {
    add(problems, "count", "count_of_zero", "0", "a count of 0 sherds",
        "leave the row out; for crumbs give the weight and leave the count blank");
  }
  rim_rule(problems, row);
  base_rule(problems, row);
  range_rule(problems, row, "earliest", "latest");
}

void date_rules(Problems& problems, const RowView& row) {
  if (row.text("fabric").empty() && row.text("form").empty() && row.text("decoration").empty()) {
    add(problems, "fabric", "no_subject", "", "the row names neither fabric, form nor decoration");
  }
  range_rule(problems, row, "earliest", "latest");
  range_rule(problems, row, "full_from", "full_to");
}

void evidence_rules(Problems& problems, const RowView& row) {
  bool seen = false;
  for (const ColumnSpec& column : kind_spec(Kind::evidence).columns) {
    seen =
        seen || (column.key && column.name != "reference" && column.name != "region" && !row.text(column.name).empty());
  }
  if (!seen) {
    add(problems, "ware", "no_subject", "", "the row names nothing that could be seen on a piece",
        "name at least one of ware, fabric, form, decoration, mark ...");
  }
  range_rule(problems, row, "earliest", "latest");
  range_rule(problems, row, "full_from", "full_to");
}

void certified_rules(Problems& problems, const RowView& row) {
  const auto value = row.integer("value");
  if (value && *value < 0) {
    add(problems, "value", "negative", value_text(CellType::decimal, *value), "an amount below zero",
        "check the certificate");
  }
  const auto uncertainty = row.integer("uncertainty");
  if (uncertainty && *uncertainty < 0) {
    add(problems, "uncertainty", "negative", value_text(CellType::decimal, *uncertainty), "an uncertainty below zero",
        "check the certificate");
  }
  if (uncertainty && *uncertainty > 0 && row.text("uncertainty_kind").empty()) {
    add(problems, "uncertainty_kind", "no_kind", "", "the uncertainty does not say what it is",
        "the certificate tells: expanded (and k), tolerance, sd, or none");
  }
}

void concentration_rules(Problems& problems, const RowView& row) {
  const std::string_view state = row.text("state");
  if ((state.empty() || state == "measured") && !row.integer("value")) {
    add(problems, "value", "no_quantity", "", "the amount is missing", "where it is below a limit, state is below");
  }
  for (const char* column : {"error", "limit"}) {
    const auto value = row.integer(column);
    if (!value || *value >= 0) continue;
    add(problems, column, "negative", value_text(CellType::decimal, *value), "an error or limit below zero",
        "check the sign");
  }
}

void source_rules(Problems& problems, const RowView& row) {
  if (row.integer("east").has_value() == row.integer("north").has_value()) return;
  add(problems, "east", "half_a_place", "", "a place needs both east and north", "give both, or neither");
}

void different_rule(Problems& problems, const RowView& row, std::string_view a, std::string_view b, std::string what) {
  if (row.text(a).empty() || row.text(a) != row.text(b)) return;
  add(problems, std::string(b), "with_itself", std::string(row.text(b)),
      std::move(what) + " \"" + std::string(row.text(a)) + "\" to itself");
}

void selection_rules(Problems& problems, const RowView& row) {
  if (!row.text("record").empty() || !row.text("context").empty()) return;
  add(problems, "context", "no_subject", "", "the decision names neither a line nor a context",
      "give the record, or the context, with the fabric where it is of one only");
}

void not_negative(Problems& problems, const RowView& row, std::initializer_list<std::string_view> columns) {
  for (const std::string_view column : columns) {
    const auto value = row.integer(column);
    if (!value || *value >= 0) continue;
    add(problems, std::string(column), "negative", value_text(CellType::decimal, *value), "an amount below zero",
        "check the sign");
  }
}

/// Least, likely and most, in that order where they are given.
void three_rule(Problems& problems, const RowView& row, const std::string& name) {
  not_negative(problems, row, {name + "_low", name + "_likely", name + "_high"});
  std::optional<std::int64_t> before;
  for (const char* end : {"_low", "_likely", "_high"}) {
    const auto value = row.integer(name + end);
    if (before && value && *value < *before) {
      add(problems, name + end, "out_of_order", value_text(CellType::decimal, *value),
          "less than the value before it (" + value_text(CellType::decimal, *before) + ")",
          "give the least, the likely and the most, in that order");
    }
    if (value) before = value;
  }
}

void rate_rules(Problems& problems, const RowView& row) {
  not_negative(problems, row, {"rate_day"});
  three_rule(problems, row, "pace");
  for (const char* column : {"hours_day", "pace_low", "pace_likely", "pace_high"}) {
    if (row.integer(column) == 0)
      add(problems, column, "zero", "0", "nothing gets done at 0", "leave it blank instead");
  }
  const auto day = row.integer("hours_day");
  if (day && (*day < 0 || *day > 24'000'000))
    add(problems, "hours_day", "not_a_day", value_text(CellType::decimal, *day), "a day has 24 hours at the most");
}

void estimate_rules(Problems& problems, const RowView& row) {
  not_negative(problems, row, {"amount"});
  for (const char* name : {"sherds", "hours", "cost"}) three_rule(problems, row, name);
}

std::size_t place_of(const KindSpec& spec, std::string_view name) {
  std::size_t place = 0;
  while (spec.columns[place].name != name) ++place;
  return place;
}

}  // namespace

void order_relation(std::vector<RowValue>& values) {
  const KindSpec& spec = kind_spec(Kind::relations);
  std::string_view& kind = values[place_of(spec, "kind")].text;
  const auto relation = from_word<RelationKind>(kind);
  const auto turn = [&](RelationKind opposite) {
    std::swap(values[place_of(spec, "later")], values[place_of(spec, "earlier")]);
    kind = word(opposite);
  };
  if (relation == RelationKind::below) turn(RelationKind::above);
  if (relation == RelationKind::cut_by) turn(RelationKind::cuts);
  if (relation == RelationKind::filled_by) turn(RelationKind::fills);
}

std::vector<Problem> broken_rules(Kind kind, const RowView& row) {
  Problems problems;
  switch (kind) {
    case Kind::sherds:
      sherd_rules(problems, row);
      break;
    case Kind::rims:
      rim_rule(problems, row);
      break;
    case Kind::dates:
      date_rules(problems, row);
      break;
    case Kind::evidence:
      evidence_rules(problems, row);
      break;
    case Kind::relations:
      different_rule(problems, row, "later", "earlier", "a relation of");
      break;
    case Kind::joins:
      different_rule(problems, row, "record_a", "record_b", "a join of record");
      break;
    case Kind::contexts:
      range_rule(problems, row, "not_before", "not_after");
      range_rule(problems, row, "my_earliest", "my_latest");
      break;
    case Kind::phases:
    case Kind::fabrics:
    case Kind::forms:
    case Kind::scans:
    case Kind::decorations:
      range_rule(problems, row, "earliest", "latest");
      break;
    case Kind::inclusions:
      size_rule(problems, row);
      break;
    case Kind::measures:
      measure_rules(problems, row);
      break;
    case Kind::pieces:
      piece_rules(problems, row);
      break;
    case Kind::bands:
      band_rule(problems, row);
      break;
    case Kind::drawings:
      drawing_rule(problems, row);
      break;
    case Kind::sections:
    case Kind::bags:
    case Kind::equivalents:
    case Kind::specimens:
    case Kind::pictures:
    case Kind::trays:
    case Kind::people:
    case Kind::repositories:
    case Kind::loans:
    case Kind::standards:
    case Kind::samples:
    case Kind::readings:
    case Kind::petrology:
    case Kind::point_counts:
    case Kind::analytes:
    case Kind::texts:
    case Kind::report_items:
    case Kind::bibliography:
      break;
    case Kind::rates:
      rate_rules(problems, row);
      break;
    case Kind::estimates:
      estimate_rules(problems, row);
      break;
    case Kind::hours:
      not_negative(problems, row, {"hours"});
      break;
    case Kind::certified:
      certified_rules(problems, row);
      break;
    case Kind::concentrations:
      concentration_rules(problems, row);
      break;
    case Kind::sources:
      source_rules(problems, row);
      break;
    case Kind::selections:
      selection_rules(problems, row);
      break;
  }
  return problems;
}

}  // namespace sherd::exchange
