#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/text.h"
#include "desk/assemblage/compare_input.h"
#include "desk/assemblage/line_fields.h"
#include "desk/assemblage/selection.h"
#include "desk/frame/session.h"
#include "methods/quantify/groups.h"
#include "methods/quantify/natural_order.h"
#include "methods/quantify/tally.h"
#include "methods/quantify/vessels.h"

namespace sherd::desk {

namespace {

using quantify::NaturalLess;
using Labels = std::map<std::string, std::size_t, NaturalLess>;

struct Choice {
  std::vector<std::string> by;  ///< rows, columns and, where asked for, the layer
  std::string measure;
};

Result<Choice> choice_of(const CompareRequest& request) {
  Choice out;
  out.by = {request.rows.empty() ? "context" : request.rows, request.columns.empty() ? "fabric" : request.columns};
  if (!request.layer.empty()) out.by.push_back(request.layer);
  if (out.by[0] == out.by[1] || (out.by.size() > 2 && (out.by[2] == out.by[0] || out.by[2] == out.by[1]))) {
    return fail(ErrorKind::usage, "bad_choice", "a field cannot be compared with itself",
                "--rows, --columns and --layer name different fields");
  }
  out.measure = request.measure.empty() ? "count" : request.measure == "weight" ? "weight_g" : request.measure;
  const std::vector<std::string> known{"count", "weight_g", "vessels", "eve"};
  if (std::ranges::find(known, out.measure) == known.end()) {
    const std::string near = did_you_mean(out.measure, known);
    return fail(ErrorKind::usage, "bad_choice", "there is no measure \"" + request.measure + "\"",
                near.empty() ? "choose count, weight_g, vessels or eve" : near);
  }
  return out;
}

std::optional<double> amount_of(const quantify::TallyRow& row, const std::string& measure) {
  if (measure == "weight_g") return row.weight_g;
  if (measure == "eve") return row.eve;
  const auto& number = measure == "vessels" ? row.vessels : row.count;
  return number ? std::optional(static_cast<double>(*number)) : std::nullopt;
}

/// Numbers the labels in the order in which they are shown.
void number(Labels& labels) {
  std::size_t next = 0;
  for (auto& [label, place] : labels) place = next++;
}

std::vector<std::string> names_of(const Labels& labels) {
  std::vector<std::string> out;
  for (const auto& [label, place] : labels) out.push_back(label);
  return out;
}

/// A tally by two or three fields, its groups as places in a table.
class Crossing {
 public:
  Crossing(const quantify::TallyInput& input, quantify::Tally tally) : input_(input), tally_(std::move(tally)) {
    labels_.resize(input.by.size());
    for (const quantify::TallyRow& row : tally_.rows) {
      for (std::size_t f = 0; f < labels_.size(); ++f) labels_[f].emplace(*row.keys[f], 0);
    }
    for (Labels& labels : labels_) number(labels);
  }

  const Labels& labels(std::size_t field) const { return labels_[field]; }
  std::size_t layers() const { return labels_.size() > 2 ? labels_[2].size() : 1; }
  std::size_t row(std::size_t group) const { return labels_[0].at(*tally_.rows[group].keys[0]); }
  /// The place of type and layer among all pairs of these.
  std::size_t column(std::size_t group) const {
    const auto& keys = tally_.rows[group].keys;
    const std::size_t type = labels_[1].at(*keys[1]);
    return labels_.size() > 2 ? type * layers() + labels_[2].at(*keys[2]) : type;
  }
  const quantify::Tally& tally() const { return tally_; }

  std::vector<compare::Family> families() const {
    const quantify::Groups groups = quantify::group_lines(input_.by, *input_.only);
    const quantify::Evidence evidence = quantify::read_lines(input_, *input_.only, groups.of);
    std::vector<compare::Family> out;
    const auto add = [&](std::size_t group, const quantify::Sums& sums) {
      if (sums.has_eve && sums.eve_thousandths > 0)
        out.push_back({row(group), column(group), static_cast<double>(sums.eve_thousandths) / 1000.0});
    };
    for (std::size_t k = 0; k < evidence.line.size(); ++k) add(groups.of[k], evidence.line[k]);
    for (const quantify::VesselPart& part : quantify::vessel_parts(evidence.mentions, false))
      add(part.group, part.sums);
    return out;
  }

 private:
  const quantify::TallyInput& input_;
  quantify::Tally tally_;
  std::vector<Labels> labels_;
};

void fill(CompareInput& out, const Crossing& crossing, const std::string& measure) {
  compare::CountTable& table = out.table;
  table.row_labels = names_of(crossing.labels(0));
  table.column_labels = names_of(crossing.labels(1));
  table.counts = statistics::Matrix(table.row_labels.size(), table.column_labels.size());
  std::vector<double> cells(table.counts.values.size() * crossing.layers(), 0.0);
  const std::size_t wide = table.column_labels.size() * crossing.layers();
  for (std::size_t g = 0; g < crossing.tally().rows.size(); ++g) {
    const double amount = amount_of(crossing.tally().rows[g], measure).value_or(0.0);
    table.counts(crossing.row(g), crossing.column(g) / crossing.layers()) += amount;
    cells[crossing.row(g) * wide + crossing.column(g)] += amount;
  }
  if (measure == "eve") {
    out.families = crossing.families();
    if (crossing.layers() > 1) cells = compare::pseudo_counts(table.row_labels.size(), wide, out.families).values;
    for (compare::Family& family : out.families) family.column /= crossing.layers();
  }
  if (crossing.layers() < 2) return;
  out.cube = compare::Cube{.sides = {},
                           .sizes = {table.row_labels.size(), table.column_labels.size(), crossing.layers()},
                           .cells = std::move(cells),
                           .impossible = {}};
  out.layers = names_of(crossing.labels(2));
}

/// COLUMN*LAYER of each request as cells that cannot be.
Result<void> mark_impossible(const std::vector<std::string>& pairs, CompareInput& out) {
  if (!out.cube || pairs.empty()) return {};
  compare::Cube& cube = *out.cube;
  cube.impossible.assign(cube.cells.size(), false);
  for (const std::string& pair : pairs) {
    const auto star = pair.find('*');
    const std::string type(trim(std::string_view(pair).substr(0, star)));
    const std::string layer(star == std::string::npos ? "" : trim(std::string_view(pair).substr(star + 1)));
    const auto t = std::ranges::find(out.table.column_labels, type);
    const auto l = std::ranges::find(out.layers, layer);
    if (t == out.table.column_labels.end() || l == out.layers.end()) {
      return fail(ErrorKind::usage, "bad_choice", "\"" + pair + "\" names no pair of a column and a layer",
                  "write COLUMN*LAYER, both as they are in the record");
    }
    const auto type_at = static_cast<std::size_t>(t - out.table.column_labels.begin());
    const auto layer_at = static_cast<std::size_t>(l - out.layers.begin());
    for (std::size_t row = 0; row < cube.sizes[0]; ++row)
      cube.impossible[(row * cube.sizes[1] + type_at) * cube.sizes[2] + layer_at] = true;
  }
  return {};
}

/// Says what was left out.
void note_selection(const Selection& selection, const SelectedLines& selected, const std::vector<std::string>& by,
                    CompareInput& out) {
  out.about.where = selection.where;
  out.about.blank_lines = selected.blank;
  out.about.doubtful_lines = selected.doubtful;
  out.about.unchecked_lines = selected.unchecked;
  if (selected.doubtful > 0) out.warnings.push_back("left out: " + counted(selected.doubtful, "doubtful line"));
  if (selected.unchecked > 0) out.warnings.push_back("left out: " + counted(selected.unchecked, "unchecked line"));
  if (selected.blank > 0)
    out.warnings.push_back(fmt::format("left out: {} without {}", counted(selected.blank, "line"), join(by, " or ")));
}

}  // namespace

Result<CompareInput> input_of_store(const CompareRequest& request, Environment& environment, Progress& progress) {
  SHERD_TRY(const Choice choice, choice_of(request));
  if (!request.aside.empty() || !request.groups.empty() || !request.at.empty()) {
    return fail(ErrorKind::usage, "not_for_this", "--aside, --groups and --at are for a table; this is a store",
                "--where chooses lines of a store");
  }
  SHERD_TRY(const Selection selection, selection_of(request, choice.by));
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  std::vector<std::string> asked = choice.by;
  for (std::string& field : selection.fields()) asked.push_back(std::move(field));
  SHERD_TRY(const Table rims,
            session.store->read({session.site.code, Kind::rims, {"record", "rim_percent", "vessel"}, {}}));
  std::vector<std::string> always{"count", "weight_g", "vessels", "vessel", "rim_percent"};
  if (rims.rows() > 0) always.emplace_back("record");
  SHERD_TRY(const LineFields fields, LineFields::read(session, asked, always));
  CompareInput out;
  quantify::TallyInput input;
  input.lines = fields.lines().rows();
  input.line = quantify::line_columns(fields.lines());
  input.rim = quantify::rim_columns(rims);
  for (const std::string& field : choice.by) input.by.push_back(fields.column(field));
  SelectedLines selected = selected_lines(fields, selection, choice.by);
  note_selection(selection, selected, choice.by, out);
  input.only = std::move(selected.lines);
  SHERD_TRY(quantify::Tally tally, quantify::tally(input, progress));
  fill(out, Crossing(input, std::move(tally)), choice.measure);
  if (out.cube) out.cube->sides = choice.by;
  SHERD_CHECK(mark_impossible(request.impossible, out));
  out.counts = choice.measure == "count" || choice.measure == "vessels";
  out.about.measure = choice.measure;
  out.row_field = choice.by[0];
  out.column_field = choice.by[1];
  out.records = RecordFilter(selection.where, out.row_field, out.column_field);
  SHERD_TRY(out.provenance, session.provenance(environment));
  for (std::string& warning : session.store->warnings()) out.warnings.push_back(std::move(warning));
  out.provenance.settings["rows"] = choice.by[0];
  out.provenance.settings["columns"] = choice.by[1];
  out.provenance.settings["measure"] = choice.measure;
  out.provenance.settings["where"] = join(selection.where, " and ");
  return out;
}

}  // namespace sherd::desk
