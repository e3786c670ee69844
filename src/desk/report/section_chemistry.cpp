#include "desk/report/section_chemistry.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/chemistry/chemistry.h"

namespace sherd::desk {

namespace {

using report::BulletList;
using report::DocumentTable;
using report::Heading;
using report::Paragraph;
using report::Section;

std::string fixed(const std::optional<double>& value, int places) {
  return value ? format_fixed(*value, places) : std::string("-");
}

std::string decision(const chemistry::Acceptance& each) {
  const std::string words = replace_all(each.decision, "_", " ");
  return each.decided_by.empty() ? words : words + " (" + each.decided_by + ")";
}

DocumentTable acceptance_table(const std::vector<chemistry::Acceptance>& rows) {
  DocumentTable table{.caption = "Which analytes may be used, and why",
                      .columns = {{"Analyte", false},
                                  {"May be used", false},
                                  {"R squared", true},
                                  {"Scatter %", true},
                                  {"Off %", true},
                                  {"Below %", true},
                                  {"Because", false}},
                      .rows = {},
                      .total = {},
                      .note =
                          "Scatter: of readings of one sample, pooled. Off: the check standard against its "
                          "certificate. Below: readings below the limit of detection."};
  for (const chemistry::Acceptance& each : rows)
    table.rows.push_back({each.analyte, decision(each), fixed(each.r2, 3), fixed(each.rsd_percent, 1),
                          fixed(each.error_percent, 1), fixed(each.censored_percent, 0), join(each.reasons, "; ")});
  return table;
}

DocumentTable lines_table(const std::vector<chemistry::Calibration>& lines) {
  DocumentTable table{.caption = "Lines of calibration, reported = a + b certified",
                      .columns = {{"Analyte", false},
                                  {"a", true},
                                  {"se", true},
                                  {"b", true},
                                  {"se", true},
                                  {"Standards", true},
                                  {"From", true},
                                  {"To", true}},
                      .rows = {},
                      .total = {},
                      .note = {}};
  const auto four = [](double value) { return fmt::format("{:.4g}", value); };
  for (const chemistry::Calibration& line : lines)
    table.rows.push_back({line.analyte + " " + (line.unit == "percent" ? "%" : line.unit), four(line.a),
                          line.se_a ? four(*line.se_a) : "-", four(line.b), four(line.se_b), std::to_string(line.n),
                          four(line.range[0]), four(line.range[1])});
  return table;
}

DocumentTable fabric_table(const std::vector<FabricCell>& cells) {
  std::vector<std::string> groups;
  std::map<std::string, std::map<std::string, std::int64_t>> rows;
  for (const FabricCell& cell : cells) {
    const std::string group = cell.group.empty() ? "in none" : cell.group;
    if (std::ranges::find(groups, group) == groups.end()) groups.push_back(group);
    rows[cell.fabric][group] = cell.samples;
  }
  std::ranges::sort(groups);
  DocumentTable table{.caption = "Samples of each fabric by chem group",
                      .columns = {{"Fabric", false}},
                      .rows = {},
                      .total = {},
                      .note = {}};
  for (const std::string& group : groups) table.columns.push_back({group, true});
  for (const auto& [fabric, counts] : rows) {
    std::vector<std::string> row{fabric};
    for (const std::string& group : groups) {
      const auto found = counts.find(group);
      row.push_back(found == counts.end() ? "-" : std::to_string(found->second));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

void add_fabrics(const ChemistryResponse& fabrics, Section& section) {
  section.blocks.emplace_back(Heading{"Fabric and chemistry"});
  section.blocks.emplace_back(fabric_table(fabrics.cells));
  if (fabrics.disagreements.empty()) {
    section.blocks.emplace_back(Paragraph{"No sherd disagrees with the usual group of its fabric."});
    return;
  }
  BulletList list;
  for (const Disagreement& each : fabrics.disagreements)
    list.items.push_back(fmt::format("{}{}: fabric {}, chem group {}; {} of {} of the fabric are in {}", each.id,
                                     each.record.empty() ? "" : " (record " + each.record + ")", each.fabric,
                                     each.group, each.in_usual, each.of_fabric, each.usual_group));
  section.blocks.emplace_back(Paragraph{"Sherds that do not go with their fabric; either may be wrong:"});
  section.blocks.emplace_back(std::move(list));
}

constexpr const char* kLimits =
    "Readings of a surface are of that surface: light elements of its outermost hundredths of a millimetre, heavy ones "
    "of millimetres. Slip, glaze, soot, salts, burial and temper change them. From readings alone no kiln or place "
    "follows without reference groups of known origin measured on the same scale, nor a date, a firing temperature, "
    "or equality with figures of another laboratory. Sherds may be called chemically indistinguishable within "
    "these elements, and no more.";

}  // namespace

Result<std::optional<report::Section>> chemistry_section(const std::string& store, const std::string& site,
                                                         Environment& environment, Progress& progress) {
  ChemistryRequest request;
  request.store = store;
  request.site = site;
  request.how = "acceptance";
  auto acceptance = study_chemistry(request, environment, progress);
  if (!acceptance && acceptance.error().code == "no_readings") return std::optional<Section>{};
  if (!acceptance) return fail(acceptance.error());
  Section section{.id = "chemistry", .title = "Chemistry", .blocks = {}};
  section.blocks.emplace_back(
      Paragraph{fmt::format("{} were read, {} in all.", counted(acceptance->table.rows, "sample"),
                            counted(acceptance->table.readings, "reading"))});
  section.blocks.emplace_back(acceptance_table(acceptance->acceptance));
  if (!acceptance->calibrations.empty()) section.blocks.emplace_back(lines_table(acceptance->calibrations));
  request.how = "fabrics";
  const auto fabrics = study_chemistry(request, environment, progress);
  if (fabrics) add_fabrics(*fabrics, section);
  section.blocks.emplace_back(Heading{"Limits"});
  section.blocks.emplace_back(Paragraph{kLimits});
  for (const std::string& warning : acceptance->warnings) section.blocks.emplace_back(Paragraph{warning, true});
  return std::optional(std::move(section));
}

}  // namespace sherd::desk
