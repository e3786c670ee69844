#include <algorithm>
#include <cmath>
#include <map>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/report/sections.h"

/// The tables that editors ask for: fabric by phase and form by fabric, count, weight, EVE and percent together.
namespace sherd::desk {

namespace {

using quantify::TallyRow;
using report::DocumentTable;
using report::Words;

/// Rows of a tally by two fields, under the first.
using Groups = std::vector<std::pair<std::string, std::vector<const TallyRow*>>>;

Groups groups_of(const quantify::Tally& tally, std::size_t group) {
  Groups groups;
  for (const TallyRow& row : tally.rows) {
    const std::string name = row.keys[group].value_or("");
    auto found = std::ranges::find(groups, name, [](const auto& pair) { return pair.first; });
    if (found == groups.end()) found = groups.insert(groups.end(), {name, {}});
    found->second.push_back(&row);
  }
  return groups;
}

/// Phases in the order of the site, what has none behind them.
void in_phase_order(Groups& groups, const ReportInput& input) {
  const auto place = [&](const std::string& phase) {
    const auto found = std::ranges::find(input.record.phases, phase, &Phase::phase);
    if (phase.empty()) return std::ssize(input.record.phases) + 1;
    return found - input.record.phases.begin();
  };
  std::ranges::stable_sort(groups, {}, [&](const auto& group) { return place(group.first); });
}

template <class T>
std::optional<double> share_of(const std::optional<T>& part, const std::optional<T>& whole) {
  if (!part || !whole || *whole == T{}) return std::nullopt;
  return static_cast<double>(*part) / static_cast<double>(*whole);
}

std::vector<std::string> cells_of(std::string name, const TallyRow& row, const TallyRow& whole) {
  return {std::move(name),
          shown(row.count),
          editors_percent(share_of(row.count, whole.count)),
          shown(row.weight_g, 0),
          editors_percent(share_of(row.weight_g, whole.weight_g)),
          shown(row.eve, 2),
          editors_percent(share_of(row.eve, whole.eve))};
}

struct Layout {
  std::string id, caption, first;
  std::string (*title)(const ReportInput&, const std::string&);
};

/// A group's own sum is `sums`, by the tally of the first field alone: a vessel of two rows is not counted twice.
DocumentTable grouped_table(const ReportInput& input, const Layout& layout, const Groups& groups, std::size_t inner,
                            const quantify::Tally& sums) {
  const Words& words = input.words;
  DocumentTable table{.caption = layout.caption,
                      .columns = {{layout.first, false},
                                  {words("sherds"), true},
                                  {"%", true},
                                  {words("weight_g"), true},
                                  {"%", true},
                                  {"EVE", true},
                                  {"%", true}},
                      .rows = {},
                      .total = {},
                      .note = words("quantities.editors_note"),
                      .id = layout.id};
  for (const auto& [name, rows] : groups) {
    const auto sum = std::ranges::find_if(
        sums.rows, [&, wanted = name](const TallyRow& row) { return row.keys.front().value_or("") == wanted; });
    const TallyRow& whole = sum == sums.rows.end() ? sums.total : *sum;
    table.heads.push_back(table.rows.size());
    table.rows.push_back({layout.title(input, name)});
    for (const TallyRow* row : rows)
      table.rows.push_back(cells_of(row->keys[inner].value_or(words("blank")), *row, whole));
    table.sums.push_back(table.rows.size());
    table.rows.push_back(cells_of(words("sum"), whole, sums.total));
  }
  table.total = cells_of(words("all"), sums.total, sums.total);
  return table;
}

std::string fabric_title(const ReportInput& input, const std::string& code) {
  if (code.empty()) return input.words("blank");
  const Fabric* fabric = fabric_of(input.record, code);
  return fabric == nullptr || fabric->name.empty() ? code : code + ": " + fabric->name;
}

/// Percent by weight of the fabrics in each phase side by side.
DocumentTable cross_table(const ReportInput& input, const Groups& phases) {
  const Words& words = input.words;
  DocumentTable table{.caption = words("quantities.cross"),
                      .columns = {{words("fabric"), false}},
                      .rows = {},
                      .total = {words("weight_g")},
                      .note = words("quantities.editors_note"),
                      .id = "fabric_percent_by_phase"};
  std::map<std::string, std::size_t> places;
  for (const TallyRow& row : input.by_fabric.tally.rows) {
    const std::string code = row.keys.front().value_or("");
    places[code] = table.rows.size();
    table.rows.push_back({code.empty() ? words("blank") : code});
    table.rows.back().resize(phases.size() + 2, "\u2013");
    table.rows.back().back() = editors_percent(row.shares.weight);
  }
  for (std::size_t i = 0; i < phases.size(); ++i) {
    const std::string& name = phases[i].first;
    table.columns.push_back({name.empty() ? words("no_phase") : name, true});
    std::optional<double> whole;
    for (const TallyRow* row : phases[i].second) {
      if (row->weight_g) whole = whole.value_or(0) + *row->weight_g;
    }
    for (const TallyRow* row : phases[i].second)
      table.rows[places[row->keys[1].value_or("")]][i + 1] = editors_percent(share_of(row->weight_g, whole));
    table.total.push_back(shown(whole, 0));
  }
  table.columns.push_back({words("all"), true});
  table.total.push_back(shown(input.by_fabric.tally.total.weight_g, 0));
  return table;
}

}  // namespace

std::string editors_percent(const std::optional<double>& share) {
  if (!share) return "\u2013";
  if (*share == 0) return "0";
  return *share < 0.005 ? std::string("+") : format_fixed(std::floor(100 * *share + 0.5), 0);
}

std::vector<report::Block> editors_tables(const ReportInput& input) {
  std::vector<report::Block> blocks;
  Groups phases = groups_of(input.by_phase_and_fabric.tally, 0);
  in_phase_order(phases, input);
  blocks.emplace_back(grouped_table(
      input, {"fabric_by_phase", input.words("quantities.fabric_by_phase"), input.words("fabric"), phase_title}, phases,
      1, input.by_phase.tally));
  constexpr std::size_t kMostPhases = 12;
  if (phases.size() > 1 && phases.size() <= kMostPhases) blocks.emplace_back(cross_table(input, phases));
  const Groups fabrics = groups_of(input.by_fabric_and_form.tally, 0);
  blocks.emplace_back(grouped_table(
      input, {"form_by_fabric", input.words("quantities.form_by_fabric"), input.words("form"), fabric_title}, fabrics,
      1, input.by_fabric.tally));
  return blocks;
}

}  // namespace sherd::desk
