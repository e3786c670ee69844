#include <algorithm>
#include <map>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/report/sections.h"

/// The sections that say what the report is about and how it was made: introduction, background, method.
namespace sherd::desk {

namespace {

using report::DocumentTable;
using report::Paragraph;
using report::Section;
using report::Words;

std::string kilograms(const Words& words, const std::optional<double>& grams) {
  return grams ? format_fixed(*grams / 1000, 1) + " kg" : words("introduction.no_weight");
}

std::string phases_sentence(const ReportInput& input) {
  if (input.record.phases.empty()) return input.words("introduction.no_phases");
  std::vector<std::string> titles;
  for (const Phase& phase : input.record.phases)
    titles.push_back(phase_title(input, phase.phase) + " (" + range_text({phase.earliest, phase.latest}) + ")");
  return input.words("introduction.phases",
                     {{"phases", input.words.counted(std::ssize(titles), "phase")}, {"list", join(titles, "; ")}});
}

std::string counting_sentence(const ReportInput& input) {
  const Site& site = input.site;
  const std::string rule = site.counting_rule ? std::string(word(*site.counting_rule)) : "none";
  const std::string when = site.counted ? std::string(word(*site.counted)) : "none";
  return input.words("method.counting." + rule) + input.words("method.counted." + when);
}

/// The series by which fabrics are also known, for the statement of method.
std::string series_sentence(const ReportInput& input) {
  std::set<std::string> series;
  for (const Equivalent& equivalent : input.rows.equivalents) series.insert(equivalent.series);
  if (series.empty()) return {};
  const std::vector<std::string> names(series.begin(), series.end());
  return input.words("method.series", {{"list", join(names, ", ")}});
}

}  // namespace

std::int64_t contexts_with_pottery(const ReportInput& input) {
  return std::count_if(input.dated.contexts.begin(), input.dated.contexts.end(),
                       [](const DatedContext& c) { return !c.lines.empty(); });
}

YearRange span_of_lines(const ReportInput& input) {
  YearRange span;
  for (const dating::LineDate& date : input.dated.line_dates) {
    if (date.earliest && (!span.earliest || *date.earliest < *span.earliest)) span.earliest = date.earliest;
    if (date.latest && (!span.latest || *date.latest > *span.latest)) span.latest = date.latest;
  }
  return span;
}

Recording recording_of(const ReportInput& input) {
  Recording out;
  std::set<std::string> recorders;
  for (const RecordLine& line : input.record.lines) {
    if (!line.recorder.empty()) recorders.insert(line.recorder);
    if (line.recorded_on.empty()) continue;
    if (out.first.empty() || line.recorded_on < out.first) out.first = line.recorded_on;
    out.last = std::max(out.last, line.recorded_on);
  }
  out.recorders.assign(recorders.begin(), recorders.end());
  return out;
}

report::DocumentTable headed_table(const report::Words& words, std::string id, std::string_view caption,
                                   std::initializer_list<TitledColumn> columns) {
  report::DocumentTable table{
      .caption = words(caption), .columns = {}, .rows = {}, .total = {}, .note = {}, .id = std::move(id)};
  for (const TitledColumn& column : columns) table.columns.push_back({words(column.title), column.number});
  return table;
}

std::string phase_title(const ReportInput& input, const std::string& phase) {
  if (phase.empty()) return input.words("no_phase");
  for (const Phase& known : input.record.phases) {
    if (known.phase == phase && !known.title.empty()) return phase + ": " + known.title;
  }
  return phase;
}

report::Section introduction(const ReportInput& input) {
  const Words& words = input.words;
  const quantify::TallyRow& total = input.by_context.tally.total;
  Section section{"introduction", words("section.introduction"), {}};
  std::string vessels;
  if (total.vessels) vessels += words("introduction.vessels", {{"vessels", words.counted(*total.vessels, "vessel")}});
  if (total.eve) vessels += " (EVE " + format_fixed(*total.eve, 2) + ")";
  section.blocks.emplace_back(
      Paragraph{words("introduction.size",
                      {{"report", words("report.this." + std::to_string(input.type))},
                       {"sherds", total.count ? words.counted(*total.count, "sherd") : words("introduction.no_count")},
                       {"weight", kilograms(words, total.weight_g)},
                       {"vessels", vessels},
                       {"found", grouped(contexts_with_pottery(input))},
                       {"contexts", words.counted(std::ssize(input.dated.contexts), "context")}})});
  const YearRange span = span_of_lines(input);
  if (!span.empty())
    section.blocks.emplace_back(
        Paragraph{words("introduction.years", {{"years", range_text(span)}}) + " " + phases_sentence(input)});
  const Recording recording = recording_of(input);
  if (!recording.first.empty()) {
    const std::string by =
        recording.recorders.empty() ? "" : words("introduction.by") + join(recording.recorders, ", ");
    section.blocks.emplace_back(
        Paragraph{words("introduction.recorded", {{"first", recording.first}, {"last", recording.last}, {"by", by}})});
  }
  return section;
}

report::Section background(const ReportInput& input) {
  const Words& words = input.words;
  Section section{"background", words("section.background"), {}};
  if (input.record.phases.empty()) return section;
  std::map<std::string, std::pair<std::int64_t, std::int64_t>> contexts;
  for (const DatedContext& context : input.dated.contexts) {
    auto& [all, with] = contexts[context.context->phase];
    ++all;
    with += context.lines.empty() ? 0 : 1;
  }
  DocumentTable table =
      headed_table(words, "phases_of_site", "background.caption",
                   {{"phase"}, {"years"}, {"background.basis"}, {"contexts", true}, {"background.with", true}});
  const auto add = [&](const std::string& phase, const std::string& years, const std::string& basis) {
    const auto& [all, with] = contexts[phase];
    table.rows.push_back({phase_title(input, phase), years, basis, grouped(all), grouped(with)});
  };
  for (const Phase& phase : input.record.phases)
    add(phase.phase, range_text({phase.earliest, phase.latest}), phase.basis ? std::string(word(*phase.basis)) : "");
  if (contexts.contains("")) add("", "", "");
  section.blocks.emplace_back(std::move(table));
  return section;
}

report::Section method(const ReportInput& input) {
  const Words& words = input.words;
  Section section{"method", words("section.method"), {}};
  section.blocks.emplace_back(Paragraph{words("method.lines") + " " + counting_sentence(input)});
  section.blocks.emplace_back(Paragraph{words("method.measures")});
  section.blocks.emplace_back(Paragraph{words("method.dates")});
  if (const std::string series = series_sentence(input); !series.empty())
    section.blocks.emplace_back(Paragraph{series});
  section.blocks.emplace_back(
      tally_table(input, "recovery", words("method.recovery"), {words("recovery")}, input.by_recovery.tally));
  return section;
}

}  // namespace sherd::desk
