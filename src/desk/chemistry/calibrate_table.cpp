#include "desk/chemistry/calibrate_table.h"

#include <array>
#include <cmath>
#include <map>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/chemistry/composition_input.h"
#include "desk/dates/plain_table.h"

namespace sherd::desk {

namespace {

using chemistry::CalibrationPoint;

struct Columns {
  std::optional<std::size_t> analyte, standard, x, y, x_sd, y_sd, weight, n;
};

Result<Columns> columns_of(const PlainTable& table) {
  const auto named = [&](std::initializer_list<std::string_view> names) {
    return table.column_named(std::vector<std::string_view>(names));
  };
  Columns out{named({"analyte", "element"}),
              named({"standard", "crm", "reference_material"}),
              named({"certified", "x", "known"}),
              named({"reported", "measured", "y"}),
              named({"certified_sd", "x_sd", "u_certified"}),
              named({"reported_sd", "y_sd"}),
              named({"weight", "w"}),
              named({"n"})};
  if (out.x && out.y) return out;
  Error error{.code = "no_heading",
              .message = "the table has no columns certified and reported",
              .hint = "a row a standard: standard, certified, reported; with analyte where there are several"};
  error.where.file = table.file;
  return fail(std::move(error));
}

Result<std::optional<double>> number_at(const PlainTable& table, const PlainTable::Row& row,
                                        std::optional<std::size_t> column) {
  if (!column || row.cells[*column].empty()) return std::optional<double>{};
  const auto scaled = parse_scaled(row.cells[*column], 9);
  if (!scaled)
    return table.at(row, *column,
                    {.code = "not_a_number",
                     .message = "\"" + row.cells[*column] + "\" is no amount",
                     .hint = "leave the cell blank where there is none: the row is then left out"});
  return std::optional(static_cast<double>(*scaled) / 1e9);
}

/// Readings of one standard as their mean.
std::vector<CalibrationPoint> averaged(const std::vector<CalibrationPoint>& points) {
  std::vector<std::vector<CalibrationPoint>> sets;
  for (const CalibrationPoint& point : points) {
    const auto same = std::ranges::find_if(
        sets, [&](const auto& set) { return set.front().standard == point.standard && set.front().x == point.x; });
    (same == sets.end() ? sets.emplace_back() : *same).push_back(point);
  }
  std::vector<CalibrationPoint> out;
  for (const auto& set : sets) {
    CalibrationPoint mean = set.front();
    if (set.size() > 1) {
      std::vector<double> readings;
      for (const CalibrationPoint& point : set) readings.push_back(point.y);
      const chemistry::Trueness found = chemistry::trueness(readings, {}, {});
      mean.y = found.mean;
      mean.n = found.n;
      mean.y_sd = *found.sd / std::sqrt(static_cast<double>(found.n));
    }
    out.push_back(std::move(mean));
  }
  return out;
}

}  // namespace

Result<void> calibrate_table(const ChemistryRequest& request, Environment& environment, ChemistryResponse& response) {
  SHERD_TRY(InstrumentChoice choice, instrument_choice(request));
  SHERD_TRY(const PlainTable table, read_plain_table(environment, request.store));
  SHERD_TRY(const Columns columns, columns_of(table));
  std::vector<std::string> order;
  std::map<std::string, std::vector<CalibrationPoint>> analytes;
  std::int64_t blank = 0;
  for (const PlainTable::Row& row : table.rows) {
    SHERD_TRY(const auto x, number_at(table, row, columns.x));
    SHERD_TRY(const auto y, number_at(table, row, columns.y));
    if (!x || !y) {
      ++blank;
      continue;
    }
    CalibrationPoint point{.x = *x, .y = *y};
    point.standard = columns.standard ? row.cells[*columns.standard] : "row " + std::to_string(row.row);
    SHERD_TRY(point.x_sd, number_at(table, row, columns.x_sd));
    SHERD_TRY(point.y_sd, number_at(table, row, columns.y_sd));
    SHERD_TRY(const auto weight, number_at(table, row, columns.weight));
    SHERD_TRY(const auto n, number_at(table, row, columns.n));
    if (weight) point.weight = *weight;
    if (n) point.n = static_cast<std::int64_t>(*n);
    const std::string analyte = columns.analyte ? row.cells[*columns.analyte] : "";
    if (!analytes.contains(analyte)) order.push_back(analyte);
    analytes[analyte].push_back(std::move(point));
  }
  if (columns.weight && choice.line.line == chemistry::Line::weighted && request.line == "weighted")
    choice.line.weights = chemistry::Weights::given;
  const bool means = choice.line.line == chemistry::Line::both ||
                     (choice.line.line == chemistry::Line::weighted && request.line == "weighted");
  for (const std::string& analyte : order) {
    auto fit = chemistry::calibrate(means ? averaged(analytes[analyte]) : analytes[analyte], choice.line);
    if (!fit) {
      Error error = fit.error();
      error.where.file = table.file;
      error.where.id = analyte;
      response.errors.push_back(std::move(error));
      continue;
    }
    fit->analyte = analyte;
    response.calibrations.push_back(std::move(*fit));
  }
  if (blank > 0) response.warnings.push_back(counted(blank, "row") + " without both amounts left out");
  response.table.rows = static_cast<std::int64_t>(table.rows.size());
  response.provenance.version = environment.version;
  response.provenance.inputs = {"sha256:" + table.sha256};
  response.provenance.settings["line"] = request.line.empty() ? "ordinary" : request.line;
  return {};
}

}  // namespace sherd::desk
