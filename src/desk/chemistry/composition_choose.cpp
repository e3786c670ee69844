#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "desk/chemistry/composition_input.h"
#include "desk/chemistry/unit_words.h"
#include "methods/chemistry/units.h"

namespace sherd::desk {

namespace {

using chemistry::Composition;

template <class T>
void keep(std::vector<T>& values, const std::vector<bool>& kept) {
  if (values.empty()) return;
  std::vector<T> out;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (kept[i]) out.push_back(std::move(values[i]));
  }
  values = std::move(out);
}

void keep_rows(CompositionInput& input, const std::vector<bool>& kept) {
  Composition& all = input.composition;
  std::vector<bool> cells;
  for (const bool row : kept) cells.insert(cells.end(), all.parts(), row);
  keep(all.values.values, cells);
  keep(all.cells, cells);
  keep(all.ids, kept);
  keep(all.records, kept);
  keep(all.groups, kept);
  keep(input.fabrics, kept);
  all.values.rows = all.ids.size();
}

Result<std::vector<bool>> named(const std::vector<std::string>& wanted, const std::vector<std::string>& names,
                                const char* what) {
  std::vector<bool> out(names.size(), false);
  for (const std::string& name : wanted) {
    bool found = false;
    for (std::size_t i = 0; i < names.size(); ++i) {
      if (names[i] != name) continue;
      out[i] = true;
      found = true;
    }
    if (!found)
      return fail(ErrorKind::usage, "no_column", std::string("there is no ") + what + " \"" + name + "\"",
                  did_you_mean(name, names));
  }
  return out;
}

Result<void> choose_analytes(const std::vector<std::string>& wanted, CompositionInput& input) {
  Composition& all = input.composition;
  std::vector<std::string> names;
  for (const chemistry::Analyte& analyte : all.analytes) names.push_back(analyte.name);
  SHERD_TRY(const std::vector<bool> kept, named(wanted, names, "analyte"));
  std::vector<bool> cells;
  for (std::size_t i = 0; i < all.rows(); ++i) cells.insert(cells.end(), kept.begin(), kept.end());
  keep(all.values.values, cells);
  keep(all.cells, cells);
  keep(all.analytes, kept);
  all.values.columns = all.parts();
  return {};
}

}  // namespace

Result<void> choose(const ChemistryRequest& request, CompositionInput& input) {
  Composition& all = input.composition;
  const auto without = listed_words(request.without);
  if (!without.empty()) {
    SHERD_TRY(std::vector<bool> out, named(without, all.ids, "sample"));
    out.flip();
    for (const std::string& id : without) input.about.left_out.push_back(id + ": left out as asked");
    keep_rows(input, out);
  }
  const auto groups = listed_words(request.groups);
  if (!groups.empty()) {
    if (all.groups.empty())
      return fail(ErrorKind::usage, "no_column", "--groups needs groups to choose from", "--by names their column");
    SHERD_TRY(std::vector<bool> in, named(groups, all.groups, "group"));
    for (std::size_t i = 0; i < in.size(); ++i) in[i] = in[i] || all.groups[i].empty();
    keep_rows(input, in);
  }
  const auto analytes = listed_words(request.analytes);
  if (!analytes.empty()) SHERD_CHECK(choose_analytes(analytes, input));
  return {};
}

void finish(CompositionInput& input) {
  Composition& all = input.composition;
  const bool ppm = std::ranges::all_of(
      all.analytes, [](const chemistry::Analyte& each) { return each.unit == chemistry::Unit::ppm; });
  const chemistry::Unit unit = ppm ? chemistry::Unit::ppm : chemistry::Unit::percent;
  ComposedTable& about = input.about;
  for (std::size_t j = 0; j < all.parts(); ++j) {
    for (std::size_t i = 0; i < all.rows(); ++i) {
      double& value = all.values(i, j);
      if (all.analytes[j].unit != unit) value = chemistry::in_unit(value, all.analytes[j].unit, unit);
      if (all.cell(i, j) == chemistry::Cell::below) ++about.below;
      if (all.cell(i, j) == chemistry::Cell::missing) ++about.missing;
      if (all.cell(i, j) == chemistry::Cell::measured && value == 0) ++about.zeros;
    }
    all.analytes[j].unit = unit;
    about.analytes.push_back(all.analytes[j].name);
  }
  about.rows = static_cast<std::int64_t>(all.rows());
  if (!about.unit.empty()) about.unit = ppm ? "ppm" : "percent";
}

Result<InstrumentChoice> instrument_choice(const ChemistryRequest& request) {
  InstrumentChoice out;
  out.drift = request.drift;
  if (!request.corrected.empty() && request.corrected != "no") {
    if (request.corrected != "yes" && request.corrected != "within")
      return fail(ErrorKind::usage, "bad_choice", "--corrected does not know \"" + request.corrected + "\"",
                  "choose yes, within or no");
    out.corrected = request.corrected;
  }
  const std::vector<std::string> known{"ordinary", "weighted", "inverse", "origin", "both"};
  const std::string line = request.line.empty() ? "ordinary" : request.line;
  const auto at = std::ranges::find(known, line);
  if (at == known.end())
    return fail(ErrorKind::usage, "bad_choice", "--line does not know \"" + line + "\"", "choose " + join(known, ", "));
  using chemistry::Line;
  static constexpr std::array<Line, 5> kLines{Line::ordinary, Line::weighted, Line::weighted, Line::origin, Line::both};
  out.line.line = kLines[static_cast<std::size_t>(at - known.begin())];
  if (line == "inverse") out.line.weights = chemistry::Weights::inverse;
  return out;
}

}  // namespace sherd::desk
