#include "methods/chemistry/selection.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/numbers.h"
#include "base/text.h"

namespace sherd::chemistry {

namespace {

bool uses_ratios(Transform transform) { return transform != Transform::none && transform != Transform::log10; }

Result<void> check_analytes(const Composition& table) {
  std::set<std::string> seen;
  for (const Analyte& analyte : table.analytes) {
    if (analyte.unit != table.analytes.front().unit) {
      return fail("mixed_units",
                  fmt::format("{} and {} are not of one unit", table.analytes.front().name, analyte.name),
                  "bring all to percent or all to ppm first");
    }
    if (!seen.insert(analyte.name).second) {
      return fail("analyte_twice", analyte.name + " is there twice",
                  "name the column to use with --analytes, or take one of them out of the table");
    }
  }
  return {};
}

Result<void> check_values(const Composition& table) {
  for (std::size_t row = 0; row < table.rows(); ++row) {
    for (std::size_t part = 0; part < table.parts(); ++part) {
      const double value = table.values(row, part);
      const Cell cell = table.cell(row, part);
      if (cell == Cell::missing || (cell == Cell::below && std::isnan(value))) continue;
      if (std::isfinite(value) && value >= 0) continue;
      Error error{
          .code = std::isfinite(value) ? "negative_value" : "not_a_number",
          .message = fmt::format("\"{}\" has {} of {}", table.ids[row],
                                 std::isfinite(value) ? format_double(value) : "no number", table.analytes[part].name),
          .hint = "an amount is 0 or more; a negative one is below the limit: write it as <LIMIT"};
      error.where.id = table.ids[row];
      error.where.column = table.analytes[part].name;
      return fail(std::move(error));
    }
  }
  return {};
}

struct Gaps {
  std::vector<bool> rows, parts;
  std::size_t cells = 0;
};

Gaps gaps_of(const Composition& table) {
  Gaps out{std::vector<bool>(table.rows(), false), std::vector<bool>(table.parts(), false)};
  for (std::size_t row = 0; row < table.rows(); ++row) {
    for (std::size_t part = 0; part < table.parts(); ++part) {
      if (table.cell(row, part) != Cell::missing) continue;
      out.rows[row] = out.parts[part] = true;
      ++out.cells;
    }
  }
  return out;
}

template <class T>
void keep(std::vector<T>& values, const std::vector<bool>& gone) {
  std::size_t next = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (gone[i]) continue;
    if (next != i) values[next] = std::move(values[i]);
    ++next;
  }
  values.resize(next);
}

void remove(Composition& table, const std::vector<bool>& rows, const std::vector<bool>& parts) {
  std::vector<double> values;
  std::vector<Cell> cells;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    for (std::size_t part = 0; part < table.parts(); ++part) {
      if (rows[row] || parts[part]) continue;
      values.push_back(table.values(row, part));
      cells.push_back(table.cell(row, part));
    }
  }
  keep(table.ids, rows);
  if (!table.groups.empty()) keep(table.groups, rows);
  if (!table.records.empty()) keep(table.records, rows);
  keep(table.analytes, parts);
  table.values.rows = table.rows();
  table.values.columns = table.parts();
  table.values.values = std::move(values);
  table.cells = std::move(cells);
}

std::vector<std::string> named(const std::vector<bool>& marked, const std::vector<std::string>& names) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < marked.size(); ++i) {
    if (marked[i]) out.push_back(names[i]);
  }
  return out;
}

std::vector<std::string> names_of(const std::vector<Analyte>& analytes) {
  std::vector<std::string> out;
  for (const Analyte& analyte : analytes) out.push_back(analyte.name);
  return out;
}

Result<void> check_size(const Composition& table, const PreparationSettings& settings, const Selection& gone) {
  const std::string because =
      gone.left_out_samples.empty() && gone.left_out_parts.empty()
          ? ""
          : fmt::format(" once {} {} left out for missing cells",
                        gone.left_out_samples.empty() ? listed(gone.left_out_parts) : listed(gone.left_out_samples),
                        gone.left_out_samples.size() + gone.left_out_parts.size() == 1 ? "is" : "are");
  const std::size_t least = uses_ratios(settings.transform) ? 2 : 1;
  if (table.parts() < least) {
    return fail("too_few_parts",
                fmt::format("{} left{}; this needs at least {}",
                            counted(static_cast<long long>(table.parts()), "element"), because, least));
  }
  if (table.rows() < 2) {
    return fail("too_few_samples",
                fmt::format("{}{}; a single composition shows nothing of how compositions vary",
                            counted(static_cast<long long>(table.rows()), "sample"), because),
                "two samples are the least, and groups want many more");
  }
  return {};
}

}  // namespace

std::string listed(const std::vector<std::string>& names) {
  constexpr std::size_t kShown = 8;
  if (names.size() <= kShown) return join(names, ", ");
  return join(std::span(names).first(kShown), ", ") + fmt::format(" and {} more", names.size() - kShown);
}

Result<Selection> select(const Composition& table, const PreparationSettings& settings) {
  SHERD_CHECK(check_analytes(table));
  SHERD_CHECK(check_values(table));
  const Gaps gaps = gaps_of(table);
  Selection out{.table = table, .left_out_samples = {}, .left_out_parts = {}};
  if (gaps.cells > 0) {
    const std::vector<std::string> samples = named(gaps.rows, table.ids);
    const std::vector<std::string> parts = named(gaps.parts, names_of(table.analytes));
    if (settings.missing == Missing::refuse) {
      return fail("missing_cells",
                  fmt::format("{} missing, of {} in {}; a blank is not 0",
                              counted(static_cast<long long>(gaps.cells), "cell is", "cells are"), listed(parts),
                              listed(samples)),
                  fmt::format("say what to leave out: --missing samples ({}) or --missing parts ({})", samples.size(),
                              parts.size()));
    }
    const bool by_sample = settings.missing == Missing::samples;
    remove(out.table, by_sample ? gaps.rows : std::vector<bool>(table.rows(), false),
           by_sample ? std::vector<bool>(table.parts(), false) : gaps.parts);
    (by_sample ? out.left_out_samples : out.left_out_parts) = by_sample ? samples : parts;
  }
  SHERD_CHECK(check_size(out.table, settings, out));
  return out;
}

}  // namespace sherd::chemistry
