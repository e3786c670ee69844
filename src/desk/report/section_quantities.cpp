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

std::string shown(const std::optional<std::int64_t>& value) { return value ? grouped(*value) : "\u2013"; }
std::string shown(const std::optional<double>& value, int places) {
  return value ? format_fixed(*value, places) : "\u2013";
}
std::string percent(const std::optional<double>& share) { return share ? format_fixed(100 * *share, 1) : "\u2013"; }

std::vector<std::string> cells_of(const quantify::TallyRow& row, std::size_t fields) {
  std::vector<std::string> cells;
  for (std::size_t i = 0; i < fields; ++i) cells.push_back(i < row.keys.size() ? row.keys[i].value_or("(blank)") : "");
  cells.insert(cells.end(),
               {shown(row.count), percent(row.shares.count), shown(row.weight_g, 1), percent(row.shares.weight),
                shown(row.vessels), shown(row.eve, 2), percent(row.shares.eve), shown(row.mean_weight_g, 1)});
  return cells;
}

const Fabric* fabric_of(const Record& record, const std::string& code) {
  const auto found =
      std::find_if(record.fabrics.begin(), record.fabrics.end(), [&](const Fabric& f) { return f.fabric == code; });
  return found == record.fabrics.end() ? nullptr : &*found;
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

std::string interval_words(const quantify::Tally& tally) {
  if (!tally.intervals) return {};
  return "95 % intervals from " + grouped(tally.intervals->resamples) + " resamples of " +
         grouped(tally.intervals->units) + " " + tally.intervals->unit;
}

/// Shares of one measure by fabric, the largest first.
std::string fabric_bars(const ReportInput& input) {
  figure::EstimatesData data{.about = {"Share of sherds by fabric", {}},
                             .measure = "Share of sherds",
                             .unit = "%",
                             .decimals = 1,
                             .rows_word = "fabrics",
                             .n_word = "sherds",
                             .interval_by = interval_words(input.by_fabric.tally),
                             .rows = {}};
  std::vector<const quantify::TallyRow*> rows;
  for (const quantify::TallyRow& row : input.by_fabric.tally.rows) rows.push_back(&row);
  std::stable_sort(rows.begin(), rows.end(), [](const auto* a, const auto* b) {
    return a->shares.count.value_or(0) > b->shares.count.value_or(0);
  });
  for (const quantify::TallyRow* row : rows) {
    const std::string code = row->keys.front().value_or("(blank)");
    const auto& intervals = row->intervals;
    data.rows.push_back(estimate_of(code, "fabric=" + row->keys.front().value_or(""), row->shares.count,
                                    intervals ? intervals->count_share : std::nullopt, row->count));
  }
  return figure::bars(data, {.width_mm = figure::kDoubleColumnMm});
}

/// Mean sherd weight by phase against the whole.
std::string weight_dots(const ReportInput& input) {
  figure::DotsData data;
  data.estimates = {.about = {"Mean sherd weight by phase", {}},
                    .measure = "Mean sherd weight",
                    .unit = "g",
                    .decimals = 1,
                    .rows_word = "phases",
                    .n_word = "sherds",
                    .interval_by = interval_words(input.by_phase.tally),
                    .rows = {}};
  for (const quantify::TallyRow& row : input.by_phase.tally.rows) {
    figure::Estimate estimate{.name = phase_title(input.record, row.keys.front().value_or("")),
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
    data.reference = figure::Reference{"whole site", *mean};
  return figure::dots(data, {.width_mm = figure::kDoubleColumnMm});
}

/// Ware groups in order of size, as shares of weight in each phase.
std::string phase_composition(const ReportInput& input) {
  const quantify::Tally& tally = input.by_phase_and_ware.tally;
  std::map<std::string, double> weight;
  for (const quantify::TallyRow& row : tally.rows)
    weight[row.keys[1].value_or("no ware group")] += row.weight_g.value_or(0);
  figure::CompositionData data{.about = {"Ware groups by phase", {}},
                               .measure = "Share of weight",
                               .n_word = "sherds",
                               .rows_word = "phases",
                               .categories_word = "ware groups",
                               .categories = {},
                               .groups = {}};
  for (const auto& [ware, grams] : weight) data.categories.push_back(ware);
  std::stable_sort(data.categories.begin(), data.categories.end(),
                   [&](const auto& a, const auto& b) { return weight[a] > weight[b]; });
  for (const quantify::TallyRow& row : tally.rows) {
    const std::string phase = row.keys[0].value_or("");
    const std::string title = phase_title(input.record, phase);
    if (data.groups.empty() || data.groups.back().name != title) {
      data.groups.push_back({title, std::vector<double>(data.categories.size(), 0.0), 0,
                             std::vector<std::string>(data.categories.size())});
    }
    figure::CompositionGroup& group = data.groups.back();
    const auto at = static_cast<std::size_t>(
        std::find(data.categories.begin(), data.categories.end(), row.keys[1].value_or("no ware group")) -
        data.categories.begin());
    group.amounts[at] = row.weight_g.value_or(0);
    group.n = group.n.value_or(0) + row.count.value_or(0);
    group.data_sets[at] = "context.phase=" + phase;
  }
  return figure::composition(data, {.width_mm = figure::kDoubleColumnMm});
}

DocumentTable fabric_table(const ReportInput& input) {
  DocumentTable table = tally_table("Fabrics.", {"fabric"}, input.by_fabric.tally);
  table.columns.insert(table.columns.begin() + 1, {"name", false});
  for (auto& row : table.rows) {
    const Fabric* fabric = fabric_of(input.record, row.front());
    row.insert(row.begin() + 1, fabric == nullptr ? "" : fabric->name);
  }
  table.total.insert(table.total.begin() + 1, "");
  return table;
}

DocumentTable phase_table(const ReportInput& input) {
  DocumentTable table = tally_table("Phases.", {"phase"}, input.by_phase.tally);
  for (auto& row : table.rows) row.front() = phase_title(input.record, row.front() == "(blank)" ? "" : row.front());
  return table;
}

std::string rim_survival(const ReportInput& input) {
  std::int64_t rims = 0, small = 0;
  for (const RecordLine& line : input.record.lines) {
    if (!line.rim_percent || line.rims.value_or(1) != 1) continue;
    ++rims;
    small += line.rim_percent->tenths < 50 ? 1 : 0;
  }
  if (rims == 0) return "No rim percent was recorded on lines of one rim.";
  return "Of " + counted(rims, "line") + " with one measured rim, " +
         format_fixed(100.0 * static_cast<double>(small) / static_cast<double>(rims), 0) +
         " % keep less than 5 % of its circle, too little for a diameter.";
}

}  // namespace

report::DocumentTable tally_table(std::string caption, const std::vector<std::string>& headings,
                                  const quantify::Tally& tally) {
  DocumentTable table{.caption = std::move(caption), .columns = {}, .rows = {}, .total = {}, .note = {}};
  for (const std::string& heading : headings) table.columns.push_back({heading, false});
  for (const char* name : {"sherds", "%", "weight, g", "%", "vessels", "EVE", "%", "g a sherd"})
    table.columns.push_back({name, true});
  for (const quantify::TallyRow& row : tally.rows) table.rows.push_back(cells_of(row, headings.size()));
  table.total = cells_of(tally.total, headings.size());
  table.total.front() = "all";
  if (!tally.total.capped.empty())
    table.note = "Counted as one whole rim in the total: " + join(tally.total.capped, ", ") + ".";
  return table;
}

report::Section quantities(const ReportInput& input) {
  Section section{"quantities", "Quantities", {}};
  section.blocks.emplace_back(Heading{"By fabric"});
  section.blocks.emplace_back(DocumentFigure{"Share of sherds by fabric, with intervals.", fabric_bars(input)});
  section.blocks.emplace_back(fabric_table(input));
  section.blocks.emplace_back(Heading{"By form"});
  section.blocks.emplace_back(
      tally_table("Forms; sherds whose form is not known are in the blank row.", {"form"}, input.by_form.tally));
  section.blocks.emplace_back(Heading{"By phase"});
  section.blocks.emplace_back(
      DocumentFigure{"Ware groups in each phase, as shares of weight.", phase_composition(input)});
  section.blocks.emplace_back(phase_table(input));
  section.blocks.emplace_back(Heading{"By context"});
  section.blocks.emplace_back(tally_table("Contexts.", {"context"}, input.by_context.tally));
  return section;
}

report::Section condition(const ReportInput& input) {
  Section section{"condition", "Condition", {}};
  section.blocks.emplace_back(Paragraph{rim_survival(input)});
  section.blocks.emplace_back(
      DocumentFigure{"Mean sherd weight by phase, with intervals, against the whole site.", weight_dots(input)});
  section.blocks.emplace_back(tally_table("Condition as recorded; several words on one line stand together.",
                                          {"condition"}, input.by_condition.tally));
  return section;
}

}  // namespace sherd::desk
