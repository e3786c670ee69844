#include <algorithm>
#include <map>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/dates/flags.h"
#include "desk/report/sections.h"
#include "figure/date_curve.h"
#include "figure/date_strips.h"
#include "figure/ranges.h"
#include "methods/dating/apportion.h"

/// The dates of wares, phases and contexts, with their reasons.
namespace sherd::desk {

namespace {

using report::DocumentFigure;
using report::DocumentTable;
using report::Paragraph;
using report::Section;

constexpr std::ptrdiff_t kSequenceAt = 6;  ///< the column of dates in sequence, before the notes

std::int64_t sherds_of(const DatedContext& context) {
  std::int64_t sherds = 0;
  for (const dating::DatedLine& line : context.dated) sherds += line.count.value_or(0);
  return sherds;
}

using InSequence = std::map<std::string_view, const KeptDate*>;

/// By context, those that have a range.
InSequence in_sequence(const ReportInput& input) {
  InSequence out;
  for (const KeptDate& date : input.in_sequence.contexts) {
    if (date.earliest || date.latest) out.emplace(date.context, &date);
  }
  return out;
}

/// Contexts with pottery or a date in sequence, phase by phase in the phases' order.
std::vector<const DatedContext*> in_phase_order(const ReportInput& input) {
  std::map<std::string, std::size_t> place;
  for (std::size_t i = 0; i < input.record.phases.size(); ++i) place[input.record.phases[i].phase] = i;
  std::vector<const DatedContext*> contexts;
  const InSequence kept = in_sequence(input);
  for (const DatedContext& context : input.dated.contexts) {
    if (!context.lines.empty() || kept.contains(context.context->context)) contexts.push_back(&context);
  }
  const auto rank = [&](const DatedContext* context) {
    const auto found = place.find(context->context->phase);
    return found == place.end() ? place.size() : found->second;
  };
  std::stable_sort(contexts.begin(), contexts.end(), [&](const auto* a, const auto* b) { return rank(a) < rank(b); });
  return contexts;
}

figure::DateStrip strip_of(const ReportInput& input, const DatedContext& context, const InSequence& kept) {
  figure::DateStrip strip{.name = context.context->context, .group = phase_title(input, context.context->phase)};
  strip.n = sherds_of(context);
  strip.data_set = "context=" + context.context->context;
  strip.own = {context.context->my_earliest, context.context->my_latest};
  if (const auto found = kept.find(context.context->context); found != kept.end())
    strip.sequence = {found->second->earliest, found->second->latest};
  if (context.mixed) {
    strip.note = input.words("dates.mixed");
    return strip;
  }
  if (context.spot) {
    strip.spot = {context.spot->earliest, context.spot->latest};
    strip.single = context.spot->single;
  }
  strip.terminus = context.effective.year;
  strip.terminus_carried = context.effective.year && context.effective.from != context.context->context;
  return strip;
}

std::vector<std::string> strips(const ReportInput& input) {
  figure::DateStripsData data{.about = {input.words("dates.contexts_title"), {}},
                              .rows_word = input.words("contexts"),
                              .n_word = input.words("sherds"),
                              .rows = {}};
  const InSequence kept = in_sequence(input);
  for (const DatedContext* context : in_phase_order(input)) data.rows.push_back(strip_of(input, *context, kept));
  std::vector<std::string> pages;
  figure::Page page{.width_mm = figure::kDoubleColumnMm, .max_height_mm = 220};
  while (page.first_row < data.rows.size()) {
    pages.push_back(figure::date_strips(data, page));
    const std::size_t next = figure::next_row_of_date_strips(data, page);
    if (next <= page.first_row) break;
    page.first_row = next;
  }
  return pages;
}

std::string ware_ranges(const ReportInput& input) {
  std::map<std::string, std::int64_t> lines;
  for (const RecordLine& line : input.record.lines) ++lines[line.fabric];
  figure::RangesData data{
      .about = {input.words("dates.ranges_title"), {}}, .rows_word = input.words("fabrics"), .rows = {}};
  for (const Fabric& fabric : input.record.fabrics) {
    if (!lines.contains(fabric.fabric)) continue;
    data.rows.push_back({fabric.fabric,
                         fabric.ware_group,
                         {fabric.earliest, fabric.latest},
                         fabric.reference,
                         "fabric=" + fabric.fabric});
  }
  return figure::ranges(data, {.width_mm = figure::kDoubleColumnMm});
}

std::string phase_curves(const ReportInput& input) {
  std::map<std::string, std::vector<dating::DatedAmount>> amounts;
  std::map<std::string, std::int64_t> count;
  for (const DatedContext& context : input.dated.contexts) {
    for (const dating::DatedLine& line : context.dated) {
      if (!line.count) continue;
      amounts[context.context->phase].push_back({line.range, static_cast<double>(*line.count)});
      count[context.context->phase] += *line.count;
    }
  }
  figure::DateCurveData data{.about = {input.words("dates.curves_title"), {}},
                             .measure = input.words("dates.measure"),
                             .n_word = input.words("sherds"),
                             .panels = {}};
  const auto add = [&](const std::string& phase) {
    const auto found = amounts.find(phase);
    if (found == amounts.end()) return;
    const auto curve = dating::apportion(found->second, {.width = 25});
    if (!curve) return;
    figure::DatePanel panel{.name = phase_title(input, phase), .n = count[phase], .note = {}, .bins = {}};
    if (curve->undated > 0) panel.note = input.words("dates.undated", {{"n", format_fixed(curve->undated, 0)}});
    for (const dating::Bin& bin : curve->bins)
      panel.bins.push_back({bin.from, bin.to, bin.value, "context.phase=" + phase});
    data.panels.push_back(std::move(panel));
  };
  for (const Phase& phase : input.record.phases) add(phase.phase);
  add("");
  return figure::date_curve(data, {.width_mm = figure::kDoubleColumnMm});
}

std::string or_dash(const YearRange& range) { return range.empty() ? "\u2013" : range_text(range); }

DocumentTable date_table(const ReportInput& input) {
  const report::Words& words = input.words;
  DocumentTable table = headed_table(
      words, "dates", "dates.caption",
      {{"context"}, {"phase"}, {"dates.own"}, {"dates.terminus"}, {"dates.set_by"}, {"dates.spot"}, {"notes"}});
  const InSequence kept = in_sequence(input);
  if (!kept.empty()) {
    table.columns.insert(table.columns.begin() + kSequenceAt, {words("dates.sequence_column"), false});
    table.note = words("dates.sequence_note");
  }
  for (const DatedContext* context : in_phase_order(input)) {
    const Context& sheet = *context->context;
    const std::vector<std::string> flags = flags_of(*context);
    std::string notes = join(flags, "; ");
    if (!sheet.my_reason.empty()) notes += (notes.empty() ? "" : ". ") + sheet.my_reason;
    const bool dated = !context->mixed && context->effective.year;
    table.rows.push_back({sheet.context, sheet.phase, or_dash({sheet.my_earliest, sheet.my_latest}),
                          dated ? year_text(*context->effective.year) : "\u2013",
                          dated ? context->effective.because : "",
                          context->spot ? or_dash({context->spot->earliest, context->spot->latest}) : "\u2013", notes});
    if (kept.empty()) continue;
    const auto found = kept.find(sheet.context);
    std::vector<std::string>& row = table.rows.back();
    row.insert(row.begin() + kSequenceAt,
               found == kept.end() || found->second->printed.empty() ? "\u2013" : found->second->printed);
  }
  return table;
}

/// What dates in sequence are, which are shown, and whether the record has moved on since.
void add_sequence(const ReportInput& input, Section& section) {
  const KeptState& state = input.in_sequence.state;
  if (in_sequence(input).empty()) return;
  section.blocks.emplace_back(Paragraph{input.words(
      "dates.sequence", {{"change", std::to_string(state.change.value_or(0))}, {"version", state.version}})});
  if (state.stale)
    section.blocks.emplace_back(
        Paragraph{input.words("dates.sequence_old", {{"because", join(state.because, "; ")}}), true});
}

}  // namespace

report::Section dates(const ReportInput& input) {
  const report::Words& words = input.words;
  Section section{"dates", words("section.dates"), {}};
  section.blocks.emplace_back(Paragraph{words("dates.lead")});
  add_sequence(input, section);
  section.blocks.emplace_back(DocumentFigure{words("dates.ranges"), ware_ranges(input), "fabric_ranges"});
  section.blocks.emplace_back(DocumentFigure{words("dates.curves"), phase_curves(input), "phase_curves"});
  const std::vector<std::string> pages = strips(input);
  const std::string lane = in_sequence(input).empty() ? "" : words("dates.sequence_lane");
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const std::string more =
        pages.size() > 1 ? words("page_of", {{"page", std::to_string(i + 1)}, {"pages", std::to_string(pages.size())}})
                         : "";
    section.blocks.emplace_back(DocumentFigure{words("dates.strips", {{"more", more}, {"sequence", lane}}), pages[i],
                                               "context_dates" + (i == 0 ? "" : "-" + std::to_string(i + 1))});
  }
  section.blocks.emplace_back(date_table(input));
  return section;
}

}  // namespace sherd::desk
