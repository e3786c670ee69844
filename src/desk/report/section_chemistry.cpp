#include "desk/report/section_chemistry.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/chemistry/chemistry.h"
#include "desk/report/sections.h"

namespace sherd::desk {

namespace {

using report::BulletList;
using report::DocumentTable;
using report::Heading;
using report::Paragraph;
using report::Section;
using report::Words;

std::string fixed(const std::optional<double>& value, int places) {
  return value ? format_fixed(*value, places) : std::string("-");
}

std::string decision(const chemistry::Acceptance& each) {
  const std::string words = replace_all(each.decision, "_", " ");
  return each.decided_by.empty() ? words : words + " (" + each.decided_by + ")";
}

DocumentTable acceptance_table(const Words& words, const std::vector<chemistry::Acceptance>& rows) {
  DocumentTable table = headed_table(words, "analytes", "chemistry.acceptance",
                                     {{"chemistry.analyte"},
                                      {"chemistry.may"},
                                      {"chemistry.r2", true},
                                      {"chemistry.scatter", true},
                                      {"chemistry.off", true},
                                      {"chemistry.below", true},
                                      {"chemistry.because"}});
  table.note = words("chemistry.acceptance_note");
  for (const chemistry::Acceptance& each : rows)
    table.rows.push_back({each.analyte, decision(each), fixed(each.r2, 3), fixed(each.rsd_percent, 1),
                          fixed(each.error_percent, 1), fixed(each.censored_percent, 0), join(each.reasons, "; ")});
  return table;
}

DocumentTable lines_table(const Words& words, const std::vector<chemistry::Calibration>& lines) {
  DocumentTable table{.caption = words("chemistry.lines"),
                      .columns = {{words("chemistry.analyte"), false},
                                  {"a", true},
                                  {"se", true},
                                  {"b", true},
                                  {"se", true},
                                  {words("chemistry.standards"), true},
                                  {words("chemistry.from"), true},
                                  {words("chemistry.to"), true}},
                      .rows = {},
                      .total = {},
                      .note = {},
                      .id = "calibration"};
  const auto four = [](double value) { return fmt::format("{:.4g}", value); };
  for (const chemistry::Calibration& line : lines)
    table.rows.push_back({line.analyte + " " + (line.unit == "percent" ? "%" : line.unit), four(line.a),
                          line.se_a ? four(*line.se_a) : "-", four(line.b), four(line.se_b), std::to_string(line.n),
                          four(line.range[0]), four(line.range[1])});
  return table;
}

DocumentTable fabric_table(const Words& words, const std::vector<FabricCell>& cells) {
  std::vector<std::string> groups;
  std::map<std::string, std::map<std::string, std::int64_t>> rows;
  for (const FabricCell& cell : cells) {
    const std::string group = cell.group.empty() ? words("chemistry.in_none") : cell.group;
    if (std::ranges::find(groups, group) == groups.end()) groups.push_back(group);
    rows[cell.fabric][group] = cell.samples;
  }
  std::ranges::sort(groups);
  DocumentTable table{.caption = words("chemistry.fabrics"),
                      .columns = {{words("fabric"), false}},
                      .rows = {},
                      .total = {},
                      .note = {},
                      .id = "fabric_chemistry"};
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

void add_fabrics(const Words& words, const ChemistryResponse& fabrics, Section& section) {
  section.blocks.emplace_back(Heading{words("chemistry.fabrics_title")});
  section.blocks.emplace_back(fabric_table(words, fabrics.cells));
  if (fabrics.disagreements.empty()) {
    section.blocks.emplace_back(Paragraph{words("chemistry.agree")});
    return;
  }
  BulletList list;
  for (const Disagreement& each : fabrics.disagreements)
    list.items.push_back(words("chemistry.disagrees",
                               {{"id", each.id},
                                {"record", each.record.empty() ? "" : " (" + words("record") + " " + each.record + ")"},
                                {"fabric", each.fabric},
                                {"group", each.group},
                                {"in", std::to_string(each.in_usual)},
                                {"of", std::to_string(each.of_fabric)},
                                {"usual", each.usual_group}}));
  section.blocks.emplace_back(Paragraph{words("chemistry.disagree")});
  section.blocks.emplace_back(std::move(list));
}

}  // namespace

Result<std::optional<report::Section>> chemistry_section(const Words& words, const std::string& store,
                                                         const std::string& site, Environment& environment,
                                                         Progress& progress) {
  ChemistryRequest request;
  request.store = store;
  request.site = site;
  request.how = "acceptance";
  auto acceptance = study_chemistry(request, environment, progress);
  if (!acceptance && acceptance.error().code == "no_readings") return std::optional<Section>{};
  if (!acceptance) return fail(acceptance.error());
  Section section{.id = "chemistry", .title = words("section.chemistry"), .blocks = {}};
  section.blocks.emplace_back(
      Paragraph{words("chemistry.lead", {{"samples", words.counted(acceptance->table.rows, "sample")},
                                         {"readings", words.counted(acceptance->table.readings, "reading")}})});
  section.blocks.emplace_back(acceptance_table(words, acceptance->acceptance));
  if (!acceptance->calibrations.empty()) section.blocks.emplace_back(lines_table(words, acceptance->calibrations));
  request.how = "fabrics";
  const auto fabrics = study_chemistry(request, environment, progress);
  if (fabrics) add_fabrics(words, *fabrics, section);
  section.blocks.emplace_back(Heading{words("chemistry.limits_title")});
  section.blocks.emplace_back(Paragraph{words("chemistry.limits")});
  for (const std::string& warning : acceptance->warnings) section.blocks.emplace_back(Paragraph{warning, true});
  return std::optional(std::move(section));
}

}  // namespace sherd::desk
