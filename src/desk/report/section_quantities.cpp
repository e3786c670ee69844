#include <algorithm>
#include <map>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/report/sections.h"
#include "figure/bars.h"
#include "figure/composition.h"
#include "figure/dots.h"

/// How much of what there is, and in what condition.
namespace sherd::desk {

namespace {

using report::DocumentFigure;
using report::DocumentTable;
using report::Heading;
using report::Paragraph;
using report::Section;
using report::Words;

std::string percent(const std::optional<double>& share) { return share ? format_fixed(100 * *share, 1) : "\u2013"; }

std::vector<std::string> cells_of(const quantify::TallyRow& row, std::size_t fields, const std::string& blank) {
  std::vector<std::string> cells;
  for (std::size_t i = 0; i < fields; ++i) cells.push_back(i < row.keys.size() ? row.keys[i].value_or(blank) : "");
  cells.insert(cells.end(),
               {shown(row.count), percent(row.shares.count), shown(row.weight_g, 1), percent(row.shares.weight),
                shown(row.vessels), shown(row.eve, 2), percent(row.shares.eve), shown(row.mean_weight_g, 1)});
  return cells;
}

figure::Estimate estimate_of(std::string name, std::string data_set, const std::optional<double>& share,
                             const std::optional<statistics::Interval>& interval,
                             const std::optional<std::int64_t>& n) {
  figure::Estimate estimate{.name = std::move(name), .n = n, .data_set = std::move(data_set)};
  if (share) estimate.value = 100 * *share;
  if (interval) {
    estimate.low = 100 * (*interval)[0];
    estimate.high = 100 * (*interval)[1];
  }
  return estimate;
}

std::string interval_words(const Words& words, const quantify::Tally& tally) {
  if (!tally.intervals) return {};
  return words("quantities.intervals", {{"resamples", grouped(tally.intervals->resamples)},
                                        {"units", grouped(tally.intervals->units)},
                                        {"unit", words("plural." + tally.intervals->unit)}});
}

/// Shares of one measure by fabric, the largest first.
std::string fabric_bars(const ReportInput& input) {
  figure::EstimatesData data{.about = {input.words("quantities.share_title"), {}},
                             .measure = input.words("quantities.share_of_sherds"),
                             .unit = "%",
                             .decimals = 1,
                             .rows_word = input.words("fabrics"),
                             .n_word = input.words("sherds"),
                             .interval_by = interval_words(input.words, input.by_fabric.tally),
                             .rows = {}};
  std::vector<const quantify::TallyRow*> rows;
  for (const quantify::TallyRow& row : input.by_fabric.tally.rows) rows.push_back(&row);
  std::stable_sort(rows.begin(), rows.end(), [](const auto* a, const auto* b) {
    return a->shares.count.value_or(0) > b->shares.count.value_or(0);
  });
  for (const quantify::TallyRow* row : rows) {
    const std::string code = row->keys.front().value_or(input.words("blank"));
    const auto& intervals = row->intervals;
    data.rows.push_back(estimate_of(code, "fabric=" + row->keys.front().value_or(""), row->shares.count,
                                    intervals ? intervals->count_share : std::nullopt, row->count));
  }
  return figure::bars(data, {.width_mm = figure::kDoubleColumnMm});
}

/// Mean sherd weight by phase against the whole.
std::string weight_dots(const ReportInput& input) {
  figure::DotsData data;
  data.estimates = {.about = {input.words("condition.weight_title"), {}},
                    .measure = input.words("condition.mean_weight"),
                    .unit = "g",
                    .decimals = 1,
                    .rows_word = input.words("phases"),
                    .n_word = input.words("sherds"),
                    .interval_by = interval_words(input.words, input.by_phase.tally),
                    .rows = {}};
  for (const quantify::TallyRow& row : input.by_phase.tally.rows) {
    figure::Estimate estimate{.name = phase_title(input, row.keys.front().value_or("")),
                              .value = row.mean_weight_g,
                              .n = row.count,
                              .data_set = "context.phase=" + row.keys.front().value_or("")};
    if (row.intervals && row.intervals->mean_weight_g) {
      estimate.low = (*row.intervals->mean_weight_g)[0];
      estimate.high = (*row.intervals->mean_weight_g)[1];
    }
    data.estimates.rows.push_back(std::move(estimate));
  }
  if (const auto& mean = input.by_phase.tally.total.mean_weight_g)
    data.reference = figure::Reference{input.words("whole_site"), *mean};
  return figure::dots(data, {.width_mm = figure::kDoubleColumnMm});
}

/// Ware groups in order of size, as shares of weight in each phase.
std::string phase_composition(const ReportInput& input) {
  const quantify::Tally& tally = input.by_phase_and_ware.tally;
  const std::string none = input.words("no_ware_group");
  std::map<std::string, double> weight;
  for (const quantify::TallyRow& row : tally.rows) weight[row.keys[1].value_or(none)] += row.weight_g.value_or(0);
  figure::CompositionData data{.about = {input.words("quantities.wares_title"), {}},
                               .measure = input.words("quantities.share_of_weight"),
                               .n_word = input.words("sherds"),
                               .rows_word = input.words("phases"),
                               .categories_word = input.words("ware_groups"),
                               .categories = {},
                               .groups = {}};
  for (const auto& [ware, grams] : weight) data.categories.push_back(ware);
  std::stable_sort(data.categories.begin(), data.categories.end(),
                   [&](const auto& a, const auto& b) { return weight[a] > weight[b]; });
  for (const quantify::TallyRow& row : tally.rows) {
    const std::string phase = row.keys[0].value_or("");
    const std::string title = phase_title(input, phase);
    if (data.groups.empty() || data.groups.back().name != title) {
      data.groups.push_back({title, std::vector<double>(data.categories.size(), 0.0), 0,
                             std::vector<std::string>(data.categories.size())});
    }
    figure::CompositionGroup& group = data.groups.back();
    const auto at =
        static_cast<std::size_t>(std::find(data.categories.begin(), data.categories.end(), row.keys[1].value_or(none)) -
                                 data.categories.begin());
    group.amounts[at] = row.weight_g.value_or(0);
    group.n = group.n.value_or(0) + row.count.value_or(0);
    group.data_sets[at] = "context.phase=" + phase;
  }
  return figure::composition(data, {.width_mm = figure::kDoubleColumnMm});
}

DocumentTable fabric_table(const ReportInput& input) {
  DocumentTable table =
      tally_table(input, "fabrics", input.words("quantities.fabrics"), {input.words("fabric")}, input.by_fabric.tally);
  table.columns.insert(table.columns.begin() + 1, {input.words("name"), false});
  for (auto& row : table.rows) {
    const Fabric* fabric = fabric_of(input.record, row.front());
    row.insert(row.begin() + 1, fabric == nullptr ? "" : fabric->name);
  }
  table.total.insert(table.total.begin() + 1, "");
  return table;
}

DocumentTable phase_table(const ReportInput& input) {
  DocumentTable table =
      tally_table(input, "phases", input.words("quantities.phases"), {input.words("phase")}, input.by_phase.tally);
  for (auto& row : table.rows) row.front() = phase_title(input, row.front() == input.words("blank") ? "" : row.front());
  return table;
}

std::string rim_survival(const ReportInput& input) {
  std::int64_t rims = 0, small = 0;
  for (const RecordLine& line : input.record.lines) {
    if (!line.rim_percent || line.rims.value_or(1) != 1) continue;
    ++rims;
    small += line.rim_percent->tenths < 50 ? 1 : 0;
  }
  if (rims == 0) return input.words("condition.no_rims");
  return input.words("condition.rims",
                     {{"lines", input.words.counted(rims, "line")},
                      {"share", format_fixed(100.0 * static_cast<double>(small) / static_cast<double>(rims), 0)}});
}

}  // namespace

std::string shown(const std::optional<std::int64_t>& value) { return value ? grouped(*value) : "\u2013"; }
std::string shown(const std::optional<double>& value, int places) {
  return value ? format_fixed(*value, places) : "\u2013";
}

const Fabric* fabric_of(const Record& record, const std::string& code) {
  const auto found = std::ranges::find(record.fabrics, code, &Fabric::fabric);
  return found == record.fabrics.end() ? nullptr : &*found;
}

report::DocumentTable tally_table(const ReportInput& input, std::string id, std::string caption,
                                  const std::vector<std::string>& headings, const quantify::Tally& tally) {
  const Words& words = input.words;
  DocumentTable table{
      .caption = std::move(caption), .columns = {}, .rows = {}, .total = {}, .note = {}, .id = std::move(id)};
  for (const std::string& heading : headings) table.columns.push_back({heading, false});
  for (const std::string& name : {words("sherds"), std::string("%"), words("weight_g"), std::string("%"),
                                  words("vessels"), std::string("EVE"), std::string("%"), words("g_a_sherd")})
    table.columns.push_back({name, true});
  for (const quantify::TallyRow& row : tally.rows) table.rows.push_back(cells_of(row, headings.size(), words("blank")));
  table.total = cells_of(tally.total, headings.size(), "");
  table.total.front() = words("all");
  if (!tally.total.capped.empty()) table.note = words("quantities.capped", {{"list", join(tally.total.capped, ", ")}});
  return table;
}

report::Section quantities(const ReportInput& input) {
  const Words& words = input.words;
  Section section{"quantities", words("section.quantities"), {}};
  const auto head = [&](std::string_view name) { section.blocks.emplace_back(Heading{words(name)}); };
  head("quantities.by_fabric");
  section.blocks.emplace_back(DocumentFigure{words("quantities.shares"), fabric_bars(input), "fabric_shares"});
  section.blocks.emplace_back(fabric_table(input));
  head("quantities.by_form");
  section.blocks.emplace_back(
      tally_table(input, "forms", words("quantities.forms"), {words("form")}, input.by_form.tally));
  head("quantities.by_phase");
  section.blocks.emplace_back(DocumentFigure{words("quantities.wares"), phase_composition(input), "wares_by_phase"});
  section.blocks.emplace_back(phase_table(input));
  if (input.type > 1) {
    head("quantities.editors");
    for (report::Block& block : editors_tables(input)) section.blocks.push_back(std::move(block));
  }
  head("quantities.by_context");
  section.blocks.emplace_back(
      tally_table(input, "contexts", words("quantities.contexts"), {words("context")}, input.by_context.tally));
  return section;
}

report::Section condition(const ReportInput& input) {
  const Words& words = input.words;
  Section section{"condition", words("section.condition"), {}};
  section.blocks.emplace_back(Paragraph{rim_survival(input)});
  section.blocks.emplace_back(DocumentFigure{words("condition.weights"), weight_dots(input), "mean_weights"});
  section.blocks.emplace_back(
      tally_table(input, "condition", words("condition.recorded"), {words("condition")}, input.by_condition.tally));
  return section;
}

}  // namespace sherd::desk
