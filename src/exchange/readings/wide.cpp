#include <algorithm>
#include <set>

#include "base/text.h"
#include "exchange/readings/grid.h"
#include "notation/analyte.h"

/// A row a reading, columns an analyte; and a row an amount.
namespace sherd::exchange {

namespace {

constexpr std::string_view part_name(HeadingPart part) {
  constexpr std::array<std::string_view, 4> kNames{"", " error", " limit", " unit"};
  return kNames[static_cast<std::size_t>(part)];
}

/// Analytes of the headings as they come; the parts of each follow it.
class Planner {
 public:
  Planner(const GridRow& header, const HeadingReader& reader) : header_(header), reader_(reader) {}

  Result<WidePlan> run() {
    plan_.headings = header_.cells;
    for (std::size_t i = 0; i < header_.cells.size(); ++i) SHERD_CHECK(values(i));
    for (std::size_t i = 0; i < header_.cells.size(); ++i) parts(i);
    std::ranges::sort(plan_.extras);
    return std::move(plan_);
  }

 private:
  Result<void> values(std::size_t i) {
    const Heading heading = reader_.read(header_.cells[i]);
    if (heading.analyte && heading.analyte->part == HeadingPart::value) return value(i, *heading.analyte);
    if (heading.pseudo) plan_.pseudo.push_back(i);
    if (heading.column.empty()) return {};
    // "Date" and "Time" both say when: they are joined, in the order of the file.
    plan_.columns.emplace_back(i, heading.column);
    return {};
  }

  Result<void> value(std::size_t i, const AnalyteHeading& heading) {
    const std::string name = formula_text(heading.formula);
    for (const AnalyteColumns& known : plan_.analytes) {
      if (known.heading.formula != heading.formula) continue;
      Error error{.code = "analyte_twice",
                  .message = "two columns are amounts of " + name + ": \"" + header_.cells[known.value] + "\" and \"" +
                             header_.cells[i] + "\"",
                  .hint = "leave one of them in the table, or name the other as what it is"};
      error.where.row = header_.row;
      error.where.column = header_.cells[i];
      return fail(std::move(error));
    }
    AnalyteColumns columns;
    columns.heading = heading;
    columns.value = i;
    plan_.analytes.push_back(columns);
    return {};
  }

  /// An error, limit or unit: of the analyte that it names, else of the one to its left.
  void parts(std::size_t i) {
    const std::string& text = header_.cells[i];
    const Heading heading = reader_.read(text);
    if (text.empty() || !heading.column.empty() || heading.pseudo) return;
    if (heading.analyte && heading.analyte->part == HeadingPart::value) return;
    if (heading.analyte) {
      for (AnalyteColumns& columns : plan_.analytes) {
        if (columns.heading.formula == heading.analyte->formula) return put(columns, i, *heading.analyte);
      }
    } else if (const auto part = notation::read_part_heading(text)) {
      AnalyteColumns* left = nullptr;
      for (AnalyteColumns& columns : plan_.analytes) {
        if (columns.value < i && (left == nullptr || columns.value > left->value)) left = &columns;
      }
      if (left != nullptr && i - left->value < 4) return put(*left, i, *part);
    }
    plan_.extras.push_back(i);
  }

  void put(AnalyteColumns& columns, std::size_t i, const AnalyteHeading& part) {
    if (part.part == HeadingPart::error) {
      columns.error = i;
      columns.multiple = part.multiple;
    } else if (part.part == HeadingPart::limit) {
      columns.limit = i;
    } else {
      columns.unit = i;
    }
  }

  const GridRow& header_;
  const HeadingReader& reader_;
  WidePlan plan_;
};

/// A column that several headings fill ("Date", "Time") holds both, parted by a blank.
void put_column(RawReading& reading, const std::string& column, const std::string& text) {
  if (text.empty()) return;
  std::string& value = reading.columns[column];
  value += (value.empty() ? "" : " ") + text;
}

RawReading reading_of(const GridRow& row, const WidePlan& plan) {
  RawReading reading;
  reading.row = row.row;
  for (const auto& [column, name] : plan.columns) put_column(reading, name, row.at(column));
  for (const auto* columns : {&plan.extras, &plan.pseudo}) {
    for (const std::size_t column : *columns) {
      if (!row.at(column).empty()) reading.extra[plan.headings[column]] = row.at(column);
    }
  }
  for (const AnalyteColumns& columns : plan.analytes) {
    RawAmount amount;
    amount.analyte = formula_text(columns.heading.formula);
    amount.value = row.at(columns.value);
    if (columns.error) amount.error = row.at(*columns.error);
    if (columns.limit) amount.limit = row.at(*columns.limit);
    if (columns.unit) amount.unit = row.at(*columns.unit);
    amount.column = plan.headings[columns.value];
    amount.row = row.row;
    amount.unit_of_heading = columns.heading.unit;
    amount.multiple = columns.multiple;
    reading.amounts.push_back(std::move(amount));
  }
  return reading;
}

void lines_above(const Grid& grid, std::size_t header, RawReadings& out) {
  for (std::size_t row = 0; row < header; ++row) out.lines_above.push_back(join(grid.rows[row].cells, " "));
}

}  // namespace

Result<WidePlan> plan_wide(const GridRow& header, const HeadingReader& reader) { return Planner(header, reader).run(); }

std::vector<HeadingUse> uses_of(const WidePlan& plan) {
  std::vector<HeadingUse> out;
  for (std::size_t i = 0; i < plan.headings.size(); ++i) {
    if (plan.headings[i].empty()) continue;
    HeadingUse use{plan.headings[i], "kept with the reading"};
    for (const auto& [column, name] : plan.columns) {
      if (column == i) use.as = name;
    }
    for (const AnalyteColumns& columns : plan.analytes) {
      const std::string name = formula_text(columns.heading.formula);
      if (columns.value == i) use.as = name;
      if (columns.error == i) use.as = name + std::string(part_name(HeadingPart::error));
      if (columns.limit == i) use.as = name + std::string(part_name(HeadingPart::limit));
      if (columns.unit == i) use.as = name + std::string(part_name(HeadingPart::unit));
    }
    if (std::ranges::find(plan.pseudo, i) != plan.pseudo.end()) use.as = "no element: kept with the reading";
    out.push_back(std::move(use));
  }
  return out;
}

Result<void> read_wide(const Grid& grid, std::size_t header, const HeadingReader& reader, RawReadings& out) {
  lines_above(grid, header, out);
  SHERD_TRY(WidePlan plan, plan_wide(grid.rows[header], reader));
  out.headings = uses_of(plan);
  std::set<std::string> pseudo;
  for (std::size_t i = header; i < grid.rows.size(); ++i) {
    const GridRow& row = grid.rows[i];
    if (i > header && analytes_in(row, reader) > 1) {
      if (row.cells != plan.headings) ++out.header_changes;
      SHERD_TRY(plan, plan_wide(row, reader));
      for (const HeadingUse& use : uses_of(plan)) {
        const auto known = [&](const HeadingUse& each) { return each.heading == use.heading && each.as == use.as; };
        if (std::ranges::none_of(out.headings, known)) out.headings.push_back(use);
      }
    }
    for (const std::size_t column : plan.pseudo) pseudo.insert(plan.headings[column]);
    if (i == header || row.cells == plan.headings) continue;
    ++out.rows_read;
    out.readings.push_back(reading_of(row, plan));
  }
  out.pseudo.assign(pseudo.begin(), pseudo.end());
  return {};
}

namespace {

std::vector<HeadingUse> uses_of(const TallPlan& plan, const GridRow& header) {
  std::vector<HeadingUse> out;
  for (std::size_t i = 0; i < header.cells.size(); ++i) {
    if (header.cells[i].empty()) continue;
    HeadingUse use{header.cells[i], "kept with the reading"};
    if (i == plan.analyte) use.as = "analyte";
    if (i == plan.value) use.as = "value";
    if (plan.error == i) use.as = "error";
    if (plan.limit == i) use.as = "limit";
    if (plan.unit == i) use.as = "unit";
    for (const auto& [column, name] : plan.columns) {
      if (column == i) use.as = name;
    }
    out.push_back(std::move(use));
  }
  return out;
}

}  // namespace

Result<void> read_tall(const Grid& grid, std::size_t header, const HeadingReader& reader, RawReadings& out) {
  lines_above(grid, header, out);
  const TallPlan plan = *plan_tall(grid.rows[header], reader);
  const std::string& value_heading = grid.rows[header].at(plan.value);
  out.headings = uses_of(plan, grid.rows[header]);
  const std::size_t bracket = value_heading.find_first_of("([_ ");
  const std::string tail = bracket == std::string::npos ? "" : value_heading.substr(bracket + 1);
  const auto unit = notation::read_unit(replace_all(replace_all(tail, ")", ""), "]", ""));
  std::map<std::string, std::size_t> places;
  std::set<std::string> pseudo;
  for (std::size_t i = header + 1; i < grid.rows.size(); ++i) {
    const GridRow& row = grid.rows[i];
    ++out.rows_read;
    RawReading reading;
    reading.row = row.row;
    for (const auto& [column, name] : plan.columns) put_column(reading, name, row.at(column));
    for (const std::size_t column : plan.extras) {
      if (!row.at(column).empty()) reading.extra[grid.rows[header].at(column)] = row.at(column);
    }
    const std::string key = reading.columns.contains("reading")
                                ? reading.columns["reading"] + "\n" + reading.columns["beam"]
                                : reading.columns["sample"] + "\n" + reading.columns["position"];
    if (reading.columns["beam"].empty()) reading.columns.erase("beam");
    const auto [place, fresh] = places.emplace(key, out.readings.size());
    if (fresh) out.readings.push_back(reading);
    RawReading& whole = out.readings[place->second];
    if (notation::is_pseudo_element(row.at(plan.analyte))) {
      pseudo.insert(row.at(plan.analyte));
      whole.extra[row.at(plan.analyte)] = row.at(plan.value);
      continue;
    }
    RawAmount amount{.analyte = row.at(plan.analyte), .value = row.at(plan.value)};
    const auto heading = notation::read_analyte_heading(amount.analyte, reader.weights());
    if (heading && heading->part == HeadingPart::value) {
      amount.analyte = formula_text(heading->formula);
      amount.unit_of_heading = heading->unit ? heading->unit : unit;
    } else {
      amount.analyte.clear();  // said as a problem by whoever reads the cells
    }
    amount.column = row.at(plan.analyte);
    amount.row = row.row;
    amount.multiple = plan.multiple;
    if (plan.error) amount.error = row.at(*plan.error);
    if (plan.limit) amount.limit = row.at(*plan.limit);
    if (plan.unit) amount.unit = row.at(*plan.unit);
    whole.amounts.push_back(std::move(amount));
  }
  out.pseudo.assign(pseudo.begin(), pseudo.end());
  return {};
}

}  // namespace sherd::exchange
