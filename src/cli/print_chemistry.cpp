#include "cli/print_chemistry.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/text_table.h"
#include "desk/chemistry/chemistry_tables.h"

/// Instruments, their standards, and what comes of compositions.
namespace sherd::cli {

namespace {

/// Four figures: 12.34, 0.001234, 1234.
std::string figures(double value) { return std::isfinite(value) ? fmt::format("{:.4g}", value) : "-"; }
std::string figures(const std::optional<double>& value) { return value ? figures(*value) : "-"; }
std::string fixed(const std::optional<double>& value, int places) {
  return value && std::isfinite(*value) ? format_fixed(*value, places) : "-";
}

std::string header(const desk::ChemistryResponse& response) {
  const desk::ComposedTable& table = response.table;
  if (table.analytes.empty()) return {};
  std::string out = fmt::format("{} of {}{}\n", counted(table.rows, "sample"), join(table.analytes, ", "),
                                table.unit.empty() ? "" : " (" + table.unit + ")");
  if (table.readings > table.rows) out += fmt::format("means of {} readings\n", grouped(table.readings));
  if (table.below + table.missing + table.zeros > 0)
    out += fmt::format("cells below their limit {}, missing {}, zero {}\n", table.below, table.missing, table.zeros);
  for (const std::string& each : table.analytes_left_out) out += "left out: " + each + "\n";
  for (const std::string& each : table.left_out) out += "left out: " + each + "\n";
  return out + "\n";
}

std::string lines(const std::vector<chemistry::Calibration>& calibrations) {
  TextTable table({"analyte", "line", "a", "se", "b", "se", "R squared", "s", "n", "from", "to", "b=1: p", "detected"});
  std::string warnings;
  for (const chemistry::Calibration& fit : calibrations) {
    table.row({fit.analyte.empty() ? "-" : fit.analyte + (fit.unit.empty() ? "" : " " + fit.unit), fit.line,
               figures(fit.a), figures(fit.se_a), figures(fit.b), figures(fit.se_b), fixed(fit.r2, 4), figures(fit.s),
               std::to_string(fit.n), figures(fit.range[0]), figures(fit.range[1]), fixed(fit.p_slope, 4),
               figures(fit.detection)});
    for (const std::string& warning : fit.warnings)
      warnings += (fit.analyte.empty() ? "" : fit.analyte + ": ") + warning + "\n";
  }
  return "reported = a + b certified\n" + table.text() + warnings + "\n";
}

std::string standards_of(const std::vector<chemistry::Calibration>& calibrations) {
  TextTable table({"analyte", "standard", "certified", "reported", "n", "residual", "by the line", "by the others %"});
  for (const chemistry::Calibration& fit : calibrations) {
    if (fit.standards.size() > 12) continue;
    for (const chemistry::CalibrationStandard& row : fit.standards) {
      table.row({fit.analyte.empty() ? "-" : fit.analyte, row.standard, figures(row.certified), figures(row.reported),
                 std::to_string(row.n), figures(row.residual), figures(row.corrected),
                 fixed(row.left_out_error_percent, 1)});
    }
  }
  return table.text(24) + "\n";
}

std::string charts(const std::vector<chemistry::ControlChart>& found) {
  if (found.empty()) return {};
  TextTable table({"analyte", "n", "mean", "sd", "warn", "", "stop", "", "drift %", "p", "beyond"});
  for (const chemistry::ControlChart& chart : found) {
    std::int64_t warn = 0;
    std::int64_t stop = 0;
    for (const chemistry::ChartPoint& point : chart.points) {
      if (point.flag == "warn") ++warn;
      if (point.flag == "stop") ++stop;
    }
    table.row({chart.analyte + " " + chart.unit, std::to_string(chart.points.size()), figures(chart.centre),
               figures(chart.sd), figures(chart.warn_low), figures(chart.warn_high), figures(chart.stop_low),
               figures(chart.stop_high), fixed(chart.drift_percent, 1), fixed(chart.p_drift, 4),
               fmt::format("{} warn, {} stop", warn, stop)});
  }
  return "check standard " + found.front().standard + " along the run\n" + table.text() + "\n";
}

std::string acceptance(const std::vector<chemistry::Acceptance>& found) {
  if (found.empty()) return {};
  static const std::map<std::string, std::string> kWords{
      {"use", "use"}, {"with_care", "with care"}, {"leave_out", "leave out"}};
  TextTable table({"analyte", "may be used", "R squared", "rsd %", "error %", "zeta", "below %", "because"});
  for (const chemistry::Acceptance& each : found) {
    const auto decision = kWords.find(each.decision);
    table.row({each.analyte,
               (decision == kWords.end() ? each.decision : decision->second) +
                   (each.decided_by.empty() ? "" : " (" + each.decided_by + ")"),
               fixed(each.r2, 3), fixed(each.rsd_percent, 1), fixed(each.error_percent, 1), fixed(each.zeta, 1),
               fixed(each.censored_percent, 0), join(each.reasons, "; ")});
  }
  return table.text(110) + "\n";
}

std::string fabrics(const desk::ChemistryResponse& response) {
  if (response.cells.empty()) return {};
  std::vector<std::string> groups;
  std::map<std::string, std::map<std::string, std::int64_t>> rows;
  for (const desk::FabricCell& cell : response.cells) {
    const std::string group = cell.group.empty() ? "in none" : cell.group;
    if (std::ranges::find(groups, group) == groups.end()) groups.push_back(group);
    rows[cell.fabric][group] = cell.samples;
  }
  std::ranges::sort(groups);
  std::vector<std::string> headings{"fabric"};
  headings.insert(headings.end(), groups.begin(), groups.end());
  TextTable table(headings);
  for (const auto& [fabric, counts] : rows) {
    std::vector<std::string> row{fabric};
    for (const std::string& group : groups) {
      const auto found = counts.find(group);
      row.push_back(found == counts.end() ? "-" : std::to_string(found->second));
    }
    table.row(std::move(row));
  }
  std::string out = table.text(24) + "\n";
  for (const desk::Disagreement& each : response.disagreements) {
    out += fmt::format("{}{}: fabric {}, chem group {}, where {} of {} of the fabric are in {}\n", each.id,
                       each.record.empty() ? "" : " (record " + each.record + ")", each.fabric, each.group,
                       each.in_usual, each.of_fabric, each.usual_group);
  }
  if (response.disagreements.empty()) out += "No sherd disagrees with the usual group of its fabric.\n";
  return out;
}

}  // namespace

std::string text_of(const desk::ChemistryResponse& response) {
  std::string out = header(response);
  if (response.how == "calibrate") {
    out += lines(response.calibrations) + standards_of(response.calibrations) + acceptance(response.acceptance);
  } else if (response.how == "drift" || response.how == "acceptance") {
    if (response.how == "drift") out += charts(response.charts);
    out += acceptance(response.acceptance);
  } else if (response.how == "fabrics") {
    out += fabrics(response);
  } else {
    out += structure_text(response);
  }
  for (const std::string& file : response.files) out += "written: " + file + "\n";
  return out + "\n" + response.caution + "\n";
}

CsvRows table_of(const desk::ChemistryResponse& response) {
  auto tables = desk::tables_of(response);
  return tables.empty() ? CsvRows{} : std::move(tables.front().rows);
}

}  // namespace sherd::cli
