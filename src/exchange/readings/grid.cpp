#include "exchange/readings/grid.h"

#include <algorithm>
#include <array>
#include <set>

#include "base/text.h"
#include "exchange/headings.h"
#include "exchange/synonyms.h"
#include "model/kind_spec.h"
#include "notation/analyte.h"

namespace sherd::exchange {

Result<Grid> read_grid(std::string_view bytes, std::string_view file_name, std::string_view sheet) {
  SHERD_TRY(const auto source, open_table(bytes, file_name, sheet));
  Grid grid;
  grid.format = source->format();
  SheetRow row;
  for (;;) {
    SHERD_TRY(const bool any, source->next(row));
    if (!any) return grid;
    GridRow& out = grid.rows.emplace_back();
    out.row = row.row;
    for (const Cell& cell : row.cells) {
      if (!cell.problem.empty()) {
        Error error{.code = "cell_problem", .message = std::string(cell.problem)};
        error.where.row = row.row;
        error.where.column = "column " + std::to_string(out.cells.size() + 1);
        return fail(std::move(error));
      }
      out.cells.emplace_back(trim(cell.text));
    }
    while (!out.cells.empty() && out.cells.back().empty()) out.cells.pop_back();
  }
}

Heading HeadingReader::read(const std::string& text) const {
  Heading out;
  if (text.empty()) return out;
  const std::string folded = folded_heading(text);
  for (const auto& [column, rule] : mapping_.columns) {
    for (const std::string& from : rule.from) {
      if (trim(from) == text || folded_heading(from) == folded) out.column = column;
    }
  }
  if (!out.column.empty()) return out;
  if (kind_spec(Kind::readings).column(folded) != nullptr) {
    out.column = folded;
    return out;
  }
  out.pseudo = notation::is_pseudo_element(text);
  if (out.pseudo) return out;
  out.analyte = notation::read_analyte_heading(text, weights_);
  if (out.analyte) return out;
  const auto synonym = find_synonym("readings", folded);
  if (synonym && !mapping_.columns.contains(synonym->column)) out.column = synonym->column;
  return out;
}

std::size_t analytes_in(const GridRow& row, const HeadingReader& reader) {
  std::size_t count = 0;
  for (const std::string& cell : row.cells) {
    const Heading heading = reader.read(cell);
    if (heading.analyte && heading.analyte->part == HeadingPart::value) ++count;
  }
  return count;
}

namespace {

constexpr std::array<std::string_view, 9> kAnalyteWords{"element", "analyte", "component", "compound",    "oxide",
                                                        "species", "symbol",  "elements",  "element_name"};
constexpr std::array<std::string_view, 9> kValueWords{"value",  "conc",     "concentration", "amount",       "result",
                                                      "values", "measured", "content",       "mass_fraction"};

template <std::size_t N>
bool among(const std::array<std::string_view, N>& words, std::string_view word) {
  return std::ranges::find(words, word) != words.end();
}

/// "Concentration (ppm)" -> "concentration"
std::string without_unit(const std::string& heading) {
  const std::string folded = folded_heading(heading);
  for (const char* unit : {"_ppm", "_mg_kg", "_wt_percent", "_percent", "_pct"}) {
    if (folded.ends_with(unit)) return folded.substr(0, folded.size() - std::string_view(unit).size());
  }
  return folded;
}

}  // namespace

std::optional<TallPlan> plan_tall(const GridRow& header, const HeadingReader& reader) {
  TallPlan plan;
  bool analyte = false;
  bool value = false;
  for (std::size_t i = 0; i < header.cells.size(); ++i) {
    const std::string folded = folded_heading(header.cells[i]);
    const Heading heading = reader.read(header.cells[i]);
    const auto part = notation::read_part_heading(header.cells[i]);
    if (!analyte && among(kAnalyteWords, folded)) {
      plan.analyte = i;
      analyte = true;
    } else if (!value && among(kValueWords, without_unit(header.cells[i]))) {
      plan.value = i;
      value = true;
    } else if (heading.column.empty() && part && part->part == HeadingPart::error) {
      plan.error = i;
      plan.multiple = part->multiple;
    } else if (heading.column.empty() && part && part->part == HeadingPart::limit) {
      plan.limit = i;
    } else if (heading.column.empty() && part && part->part == HeadingPart::unit) {
      plan.unit = i;
    } else if (!heading.column.empty()) {
      plan.columns.emplace_back(i, heading.column);
    } else if (!header.cells[i].empty()) {
      plan.extras.push_back(i);
    }
  }
  if (!analyte || !value) return std::nullopt;
  return plan;
}

std::optional<Found> find_table(const Grid& grid, const HeadingReader& reader) {
  std::optional<std::size_t> one;
  for (std::size_t row = 0; row < grid.rows.size(); ++row) {
    if (plan_tall(grid.rows[row], reader)) return Found{ReadingsShape::tall, row};
    const std::size_t analytes = analytes_in(grid.rows[row], reader);
    if (analytes > 1) return Found{ReadingsShape::wide, row};
    const bool in_front = analytes == 1 && reader.read(grid.rows[row].at(0)).analyte.has_value();
    if (analytes == 1 && !in_front && !one && row == 0) return Found{ReadingsShape::wide, row};
    if (!in_front) continue;
    if (one) return Found{ReadingsShape::on_its_side, *one};
    one = row;
  }
  if (one && *one > 0) return Found{ReadingsShape::on_its_side, *one};
  return std::nullopt;
}

Result<bool> holds_analytes(std::string_view bytes, std::string_view file_name, std::string_view sheet,
                            const AtomicWeights& weights) {
  SHERD_TRY(const Grid grid, read_grid(bytes, file_name, sheet));
  const Mapping none;
  return find_table(grid, HeadingReader(none, weights)).has_value();
}

Result<RawReadings> read_raw_readings(std::string_view bytes, std::string_view file_name, std::string_view sheet,
                                      const Mapping& mapping, const AtomicWeights& weights) {
  SHERD_TRY(const Grid grid, read_grid(bytes, file_name, sheet));
  const HeadingReader reader(mapping, weights);
  const auto found = find_table(grid, reader);
  if (!found) {
    return fail("no_analytes", "the table has no columns or rows of elements or oxides",
                "headings such as Fe_ppm, Al2O3 (wt%) or Zr are known; or a row an amount, with columns element and "
                "value");
  }
  RawReadings out;
  out.shape = found->shape;
  out.format = grid.format;
  switch (found->shape) {
    case ReadingsShape::tall:
      SHERD_CHECK(read_tall(grid, found->row, reader, out));
      break;
    case ReadingsShape::on_its_side:
      SHERD_CHECK(read_on_its_side(grid, found->row, reader, out));
      break;
    default:
      SHERD_CHECK(read_wide(grid, found->row, reader, out));
  }
  const auto named = [](const RawReading& reading) { return reading.columns.contains("beam"); };
  if (found->shape == ReadingsShape::wide && std::ranges::any_of(out.readings, named)) out.shape = ReadingsShape::beams;
  return out;
}

std::string_view shape_name(ReadingsShape shape) {
  static constexpr std::array<std::string_view, 4> kNames{"wide", "tall", "beams", "on_its_side"};
  return kNames[static_cast<std::size_t>(shape)];
}

}  // namespace sherd::exchange
