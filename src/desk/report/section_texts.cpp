#include <algorithm>
#include <map>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/report/sections.h"

/// The sections that are mostly words: introduction, method, doubts, what is outstanding, settings.
namespace sherd::desk {

namespace {

using report::BulletList;
using report::Heading;
using report::Paragraph;
using report::Section;

std::string amount(const std::optional<std::int64_t>& value, std::string_view one) {
  return value ? counted(*value, one) : "an unrecorded number of " + std::string(one) + "s";
}

std::string kilograms(const std::optional<double>& grams) {
  return grams ? format_fixed(*grams / 1000, 1) + " kg" : std::string("unrecorded weight");
}

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

std::string phases_sentence(const ReportInput& input) {
  if (input.record.phases.empty()) return "The contexts have not been phased.";
  std::vector<std::string> titles;
  for (const Phase& phase : input.record.phases)
    titles.push_back(phase_title(input.record, phase.phase) + " (" + range_text({phase.earliest, phase.latest}) + ")");
  return counted(static_cast<std::int64_t>(titles.size()), "phase") + " are distinguished: " + join(titles, "; ") + ".";
}

std::string days_of_record(const ReportInput& input) {
  std::string first, last;
  std::set<std::string> recorders;
  for (const RecordLine& line : input.record.lines) {
    if (!line.recorder.empty()) recorders.insert(line.recorder);
    if (line.recorded_on.empty()) continue;
    if (first.empty() || line.recorded_on < first) first = line.recorded_on;
    last = std::max(last, line.recorded_on);
  }
  if (first.empty()) return {};
  const std::vector<std::string> names(recorders.begin(), recorders.end());
  return "Recorded from " + first + " to " + last + (names.empty() ? "" : " by " + join(names, ", ")) + ".";
}

std::string counting_sentence(const Site& site) {
  std::string out = "Vessels are counted ";
  if (!site.counting_rule) {
    out += "by no rule stated in the project sheet";
  } else if (*site.counting_rule == CountingRule::minimum) {
    out += "as a minimum: where in doubt, sherds are taken as one vessel";
  } else if (*site.counting_rule == CountingRule::maximum) {
    out += "as a maximum: where in doubt, sherds are taken as different vessels";
  } else {
    out += "by their rims";
  }
  if (!site.counted) return out + "; whether sherds were counted before or after joining is not stated.";
  return out + "; sherds were counted " + (*site.counted == CountedWhen::before_joining ? "before" : "after") +
         " joining.";
}

void add_certainty(std::vector<std::string>& items, const ReportInput& input) {
  std::int64_t fabric = 0, form = 0, intrusive = 0, residual = 0;
  for (const RecordLine& line : input.record.lines) {
    fabric += line.fabric_certainty && *line.fabric_certainty != Certainty::sure ? 1 : 0;
    form += line.form_certainty && *line.form_certainty != Certainty::sure ? 1 : 0;
    intrusive += line.judged == Judgement::intrusive ? 1 : 0;
    residual += line.judged == Judgement::residual ? 1 : 0;
  }
  if (fabric > 0) items.push_back("The fabric of " + counted(fabric, "line") + " is probable or possible, not sure.");
  if (form > 0) items.push_back("The form of " + counted(form, "line") + " is probable or possible, not sure.");
  if (intrusive > 0) items.push_back(counted(intrusive, "line") + " judged intrusive: they set no terminus.");
  if (residual > 0) items.push_back(counted(residual, "line") + " judged residual: they take no part in spot ranges.");
}

void add_undated(std::vector<std::string>& items, const ReportInput& input) {
  std::map<std::string, std::int64_t> undated;
  for (std::size_t i = 0; i < input.record.lines.size(); ++i) {
    if (!input.dated.line_dates[i].dated()) ++undated[input.record.lines[i].fabric];
  }
  std::vector<std::string> names;
  for (const auto& [fabric, lines] : undated) names.push_back(fabric + " (" + counted(lines, "line") + ")");
  if (!names.empty()) items.push_back("Undated: " + join(names, ", ") + ".");
}

}  // namespace

std::string phase_title(const Record& record, const std::string& phase) {
  if (phase.empty()) return "No phase";
  for (const Phase& known : record.phases) {
    if (known.phase == phase && !known.title.empty()) return phase + ": " + known.title;
  }
  return phase;
}

report::Section introduction(const ReportInput& input) {
  const quantify::TallyRow& total = input.by_context.tally.total;
  Section section{"introduction", "Introduction", {}};
  std::string size = "This appraisal covers " + amount(total.count, "sherd") + " weighing " + kilograms(total.weight_g);
  if (total.vessels) size += ", from " + counted(*total.vessels, "vessel");
  if (total.eve) size += " (EVE " + format_fixed(*total.eve, 2) + ")";
  size += ". Pottery was found in " + grouped(contexts_with_pottery(input)) + " of " +
          counted(static_cast<std::int64_t>(input.dated.contexts.size()), "context") + ".";
  section.blocks.emplace_back(Paragraph{std::move(size)});
  const YearRange span = span_of_lines(input);
  if (!span.empty())
    section.blocks.emplace_back(
        Paragraph{"The wares were made at some time in the years " + range_text(span) + ". " + phases_sentence(input)});
  if (const std::string days = days_of_record(input); !days.empty()) section.blocks.emplace_back(Paragraph{days});
  return section;
}

report::Section method(const ReportInput& input) {
  Section section{"method", "Method", {}};
  section.blocks.emplace_back(
      Paragraph{"Each line of the record is one distinct combination of fabric, form, part and decoration within one "
                "context. Quantity is given by four measures: "
                "number of sherds, weight, vessels, and estimated vessel equivalents (EVE) of rims. They answer "
                "different questions and are shown side by side. " +
                counting_sentence(input.site)});
  section.blocks.emplace_back(
      Paragraph{"EVE is the part of the rim's circle that survives, summed over rims. A vessel whose sherds are known "
                "to lie in several places is counted once in each row shown and once "
                "in the total, and its EVE is taken as 1.00 at most; totals are therefore computed, not added up. Mean "
                "sherd weight is over lines that have both count and weight. "
                "Brokenness is sherds per EVE, completeness EVE per vessel; where a measure was not recorded the place "
                "holds a dash, never nought."});
  section.blocks.emplace_back(
      Paragraph{"The terminus post quem of a context is the latest year in which one of its sherds, or one from a "
                "context beneath it, began to be made; sherds judged intrusive set none, and "
                "mixed deposits pass none on. The spot range is the common range of the latest group of two or more "
                "vessels that overlap. Intervals are 95 % intervals from resampling vessels, "
                "or lines where vessels are not told apart: they say how much the luck of breakage and survival alone "
                "would move a share. The specialist's own dates stand beside what is computed."});
  section.blocks.emplace_back(tally_table("Recovery.", {"recovery"}, input.by_recovery.tally));
  return section;
}

report::Section doubts(const ReportInput& input) {
  Section section{"doubts", "What is unchecked or doubtful", {}};
  std::vector<std::string> items;
  const auto unchecked = std::count_if(input.record.lines.begin(), input.record.lines.end(),
                                       [](const RecordLine& line) { return line.checked_by.empty(); });
  if (unchecked > 0) {
    items.push_back(grouped(unchecked) + " of " +
                    counted(static_cast<std::int64_t>(input.record.lines.size()), "line") +
                    " have not been checked by a second look.");
  }
  add_certainty(items, input);
  add_undated(items, input);
  for (const stratigraphy::Stopped& stop : input.dated.stopped) {
    if (!stop.year) continue;
    items.push_back("The terminus " + year_text(*stop.year) + " of context " + stop.from +
                    " goes no further than context " + stop.context + ": " + stop.reason + ".");
  }
  if (items.empty()) items.emplace_back("Nothing is marked doubtful, and every line has been checked.");
  section.blocks.emplace_back(BulletList{std::move(items)});
  return section;
}

report::Section outstanding(const ReportInput& input) {
  Section section{"checks", "Checks outstanding", {}};
  if (input.findings.empty()) {
    section.blocks.emplace_back(Paragraph{"The checks of the record found nothing."});
    return section;
  }
  for (const auto& [severity, title] : {std::pair{Severity::error, "Errors"}, std::pair{Severity::warning, "Warnings"},
                                        std::pair{Severity::note, "Notes"}}) {
    std::vector<std::string> items;
    for (const Finding& finding : input.findings) {
      if (finding.severity == severity)
        items.push_back(finding.message + (finding.hint.empty() ? "." : ". " + finding.hint + "."));
    }
    if (items.empty()) continue;
    section.blocks.emplace_back(Heading{title});
    section.blocks.emplace_back(BulletList{std::move(items)});
  }
  return section;
}

report::Section settings(const ReportInput& input, const Provenance& provenance) {
  Section section{"settings", "Settings", {}};
  std::vector<std::string> items{"Sherdwright " + provenance.version + ", record " + provenance.inputs.front() +
                                 ", seed " + std::to_string(provenance.seed.value_or(0)) + "."};
  for (const auto& [name, value] : provenance.settings) items.push_back(replace_all(name, "_", " ") + ": " + value);
  if (input.by_fabric.tally.intervals) items.push_back(input.by_fabric.tally.intervals->about);
  section.blocks.emplace_back(BulletList{std::move(items)});
  return section;
}

std::vector<std::string> missing_of(const ReportInput& input) {
  std::vector<std::string> missing{
      "who wrote it, with qualifications", "the aims of the work, and how significant the assemblage is",
      "the strategies of sampling and selection", "the potential for further work, with tasks, time and cost",
      "where the archive will be, with its accession number"};
  if (!input.site.counting_rule) missing.emplace_back("the rule by which vessels were counted");
  if (!input.site.counted) missing.emplace_back("whether sherds were counted before or after joining");
  const auto& contexts = input.record.contexts;
  if (std::none_of(contexts.begin(), contexts.end(), [](const Context& c) { return !c.recovery.empty(); }))
    missing.emplace_back("how the pottery was recovered");
  const auto& fabrics = input.record.fabrics;
  if (std::any_of(fabrics.begin(), fabrics.end(), [](const Fabric& f) { return f.description.empty(); }))
    missing.emplace_back("descriptions of all fabrics");
  return missing;
}

}  // namespace sherd::desk
