#include <algorithm>
#include <map>

#include "base/text.h"
#include "desk/report/sections.h"

/// What is unchecked, doubtful or outstanding, and the settings.
namespace sherd::desk {

namespace {

using report::BulletList;
using report::Heading;
using report::Paragraph;
using report::Section;

void add_certainty(std::vector<std::string>& items, const ReportInput& input) {
  std::int64_t fabric = 0, form = 0, intrusive = 0, residual = 0;
  for (const RecordLine& line : input.record.lines) {
    fabric += line.fabric_certainty && *line.fabric_certainty != Certainty::sure ? 1 : 0;
    form += line.form_certainty && *line.form_certainty != Certainty::sure ? 1 : 0;
    intrusive += line.judged == Judgement::intrusive ? 1 : 0;
    residual += line.judged == Judgement::residual ? 1 : 0;
  }
  const auto add = [&](std::int64_t lines, std::string_view sentence) {
    if (lines > 0) items.push_back(input.words(sentence, {{"lines", input.words.counted(lines, "line")}}));
  };
  add(fabric, "doubts.fabric");
  add(form, "doubts.form");
  add(intrusive, "doubts.intrusive");
  add(residual, "doubts.residual");
}

void add_undated(std::vector<std::string>& items, const ReportInput& input) {
  std::map<std::string, std::int64_t> undated;
  for (std::size_t i = 0; i < input.record.lines.size(); ++i) {
    if (!input.dated.line_dates[i].dated()) ++undated[input.record.lines[i].fabric];
  }
  std::vector<std::string> names;
  for (const auto& [fabric, lines] : undated) names.push_back(fabric + " (" + input.words.counted(lines, "line") + ")");
  if (!names.empty()) items.push_back(input.words("doubts.undated", {{"list", join(names, ", ")}}));
}

}  // namespace

report::Section doubts(const ReportInput& input) {
  const report::Words& words = input.words;
  Section section{"doubts", words("section.doubts"), {}};
  std::vector<std::string> items;
  const auto unchecked = std::count_if(input.record.lines.begin(), input.record.lines.end(),
                                       [](const RecordLine& line) { return line.checked_by.empty(); });
  if (unchecked > 0)
    items.push_back(words("doubts.unchecked", {{"n", grouped(unchecked)},
                                               {"lines", words.counted(std::ssize(input.record.lines), "line")}}));
  add_certainty(items, input);
  add_undated(items, input);
  for (const stratigraphy::Stopped& stop : input.dated.stopped) {
    if (!stop.year) continue;
    items.push_back(words(
        "doubts.stopped",
        {{"year", year_text(*stop.year)}, {"from", stop.from}, {"context", stop.context}, {"reason", stop.reason}}));
  }
  if (items.empty()) items.push_back(words("doubts.none"));
  section.blocks.emplace_back(BulletList{std::move(items)});
  for (const char* caution : {"doubts.measures", "doubts.dates", "doubts.health"})
    section.blocks.emplace_back(Paragraph{words(caution)});
  return section;
}

report::Section outstanding(const ReportInput& input) {
  const report::Words& words = input.words;
  Section section{"checks", words("section.checks"), {}};
  if (input.findings.empty()) {
    section.blocks.emplace_back(Paragraph{words("checks.none")});
    return section;
  }
  for (const auto& [severity, title] :
       {std::pair{Severity::error, "checks.errors"}, std::pair{Severity::warning, "checks.warnings"},
        std::pair{Severity::note, "checks.notes"}}) {
    std::vector<std::string> items;
    for (const Finding& finding : input.findings) {
      if (finding.severity == severity)
        items.push_back(finding.message + (finding.hint.empty() ? "." : ". " + finding.hint + "."));
    }
    if (items.empty()) continue;
    section.blocks.emplace_back(Heading{words(title)});
    section.blocks.emplace_back(BulletList{std::move(items)});
  }
  return section;
}

report::Section settings(const ReportInput& input, const Provenance& provenance) {
  Section section{"settings", input.words("section.settings"), {}};
  std::vector<std::string> items{
      input.words("settings.program", {{"version", provenance.version},
                                       {"record", provenance.inputs.front()},
                                       {"seed", std::to_string(provenance.seed.value_or(0))}})};
  for (const auto& [name, value] : provenance.settings) items.push_back(replace_all(name, "_", " ") + ": " + value);
  if (input.by_fabric.tally.intervals) items.push_back(input.by_fabric.tally.intervals->about);
  section.blocks.emplace_back(BulletList{std::move(items)});
  return section;
}

}  // namespace sherd::desk
