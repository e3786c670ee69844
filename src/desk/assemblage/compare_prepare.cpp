#include "desk/assemblage/compare_prepare.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"

namespace sherd::desk {

namespace {

using compare::CountTable;

/// Its columns put together, each into its place of `into`; a pair is impossible where every one of its parts is.
compare::Cube merged(const compare::Cube& cube, const std::vector<std::size_t>& into, std::size_t columns) {
  const std::size_t layers = cube.sizes[2], wide = cube.sizes[1] * layers;
  compare::Cube out{.sides = cube.sides, .sizes = {cube.sizes[0], columns, layers}, .cells = {}, .impossible = {}};
  out.cells.assign(cube.sizes[0] * columns * layers, 0.0);
  if (!cube.impossible.empty()) out.impossible.assign(out.cells.size(), true);
  for (std::size_t cell = 0; cell < cube.cells.size(); ++cell) {
    const std::size_t to = (cell / wide * columns + into[cell % wide / layers]) * layers + cell % layers;
    out.cells[to] += cube.cells[cell];
    if (!out.impossible.empty()) out.impossible[to] = out.impossible[to] && cube.impossible[cell];
  }
  return out;
}

Result<void> merge(const std::vector<std::string>& requests, CompareInput& input) {
  if (requests.empty()) return {};
  std::vector<std::vector<std::string>> sets;
  for (const std::string& request : requests) {
    auto& set = sets.emplace_back();
    for (const std::string_view part : split(request, '+')) set.emplace_back(trim(part));
  }
  const CountTable before = input.table;
  SHERD_TRY(input.table, compare::merge_columns(before, sets));
  const auto now = [&](const std::string& label) {
    for (const auto& set : sets) {
      if (std::ranges::find(set, label) != set.end()) return join(set, " + ");
    }
    return label;
  };
  for (const auto& set : sets) {
    input.about.merged.push_back(join(set, " + "));
    input.records.add_merged(join(set, " + "), set);
  }
  std::vector<std::size_t> into;
  for (const std::string& label : before.column_labels) {
    const auto at = std::ranges::find(input.table.column_labels, now(label));
    into.push_back(static_cast<std::size_t>(at - input.table.column_labels.begin()));
  }
  for (compare::Family& family : input.families) family.column = into[family.column];
  if (input.cube) input.cube = merged(*input.cube, into, input.table.column_labels.size());
  return {};
}

template <class T>
void keep(std::vector<T>& values, const std::vector<bool>& kept) {
  std::vector<T> out;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (kept[i]) out.push_back(std::move(values[i]));
  }
  values = std::move(out);
}

void keep_rows(CompareInput& input, const std::vector<bool>& kept, std::vector<compare::Profile>& beside) {
  CountTable& table = input.table;
  for (compare::Profile& profile : beside) keep(profile.amounts, kept);
  std::vector<double> values;
  std::vector<std::size_t> place(kept.size(), 0);
  std::size_t next = 0;
  for (std::size_t i = 0; i < kept.size(); ++i) {
    if (!kept[i]) continue;
    place[i] = next++;
    const auto row = table.counts.row(i);
    values.insert(values.end(), row.begin(), row.end());
  }
  std::erase_if(input.families, [&](const compare::Family& family) { return !kept[family.row]; });
  for (compare::Family& family : input.families) family.row = place[family.row];
  keep(table.row_labels, kept);
  if (!input.groups.empty()) keep(input.groups, kept);
  if (!input.years.empty()) keep(input.years, kept);
  table.counts.rows = next;
  table.counts.values = std::move(values);
}

void keep_columns(CompareInput& input, const std::vector<bool>& kept, std::vector<compare::Profile>& beside) {
  if (std::ranges::all_of(kept, [](bool one) { return one; })) return;
  CountTable& table = input.table;
  std::vector<double> values;
  std::vector<std::size_t> place(kept.size(), 0);
  std::size_t next = 0;
  for (std::size_t j = 0; j < kept.size(); ++j) {
    if (kept[j]) place[j] = next++;
  }
  for (std::size_t i = 0; i < table.counts.rows; ++i) {
    for (std::size_t j = 0; j < kept.size(); ++j) {
      if (kept[j]) values.push_back(table.counts(i, j));
    }
  }
  std::erase_if(input.families, [&](const compare::Family& family) { return !kept[family.column]; });
  for (compare::Family& family : input.families) family.column = place[family.column];
  keep(table.column_labels, kept);
  for (compare::Profile& profile : beside) keep(profile.amounts, kept);
  table.counts.columns = next;
  table.counts.values = std::move(values);
}

std::vector<std::string> without(const std::vector<std::string>& labels, const std::vector<bool>& kept) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    if (!kept[i]) out.push_back(labels[i]);
  }
  return out;
}

Result<void> set_beside(const std::vector<std::string>& labels, CompareInput& input, Beside& beside) {
  if (labels.empty()) return {};
  std::vector<bool> kept(input.table.row_labels.size(), true);
  for (const std::string& label : labels) {
    const auto at = std::ranges::find(input.table.row_labels, label);
    if (at == input.table.row_labels.end())
      return fail("no_row", "there is no row \"" + label + "\"", did_you_mean(label, input.table.row_labels));
    const auto i = static_cast<std::size_t>(at - input.table.row_labels.begin());
    if (!kept[i]) continue;
    kept[i] = false;
    const auto row = input.table.counts.row(i);
    beside.rows.push_back({label, {row.begin(), row.end()}});
  }
  keep_rows(input, kept, beside.columns);
  return {};
}

Result<void> set_columns_beside(const std::vector<std::string>& labels, CompareInput& input, Beside& beside) {
  if (labels.empty()) return {};
  std::vector<bool> kept(input.table.column_labels.size(), true);
  for (const std::string& label : labels) {
    const auto at = std::ranges::find(input.table.column_labels, label);
    if (at == input.table.column_labels.end())
      return fail("no_column", "there is no column \"" + label + "\"", did_you_mean(label, input.table.column_labels));
    const auto j = static_cast<std::size_t>(at - input.table.column_labels.begin());
    if (!kept[j]) continue;
    kept[j] = false;
    compare::Profile profile{label, {}};
    for (std::size_t i = 0; i < input.table.counts.rows; ++i) profile.amounts.push_back(input.table.counts(i, j));
    beside.columns.push_back(std::move(profile));
  }
  keep_columns(input, kept, beside.rows);
  return {};
}

std::string listed(const std::vector<std::string>& names) {
  constexpr std::size_t kShown = 12;
  if (names.size() <= kShown) return join(names, ", ");
  return join(std::span(names).first(kShown), ", ") + " and " + std::to_string(names.size() - kShown) + " more";
}

}  // namespace

Result<void> prepare(const CompareRequest& request, CompareInput& input, Beside& beside) {
  if (request.how != "ordination" && !(request.beside.empty() && request.beside_columns.empty())) {
    return fail(ErrorKind::usage, "not_for_this", "only an ordination places rows and columns beside its axes",
                "leave --beside out; rows of a store are chosen by --where");
  }
  SHERD_CHECK(merge(request.merge, input));
  SHERD_CHECK(set_columns_beside(request.beside_columns, input, beside));
  SHERD_CHECK(set_beside(request.beside, input, beside));
  const auto filled = [](const std::vector<double>& sums) {
    std::vector<bool> out;
    for (const double sum : sums) out.push_back(sum > 0);
    return out;
  };
  const std::vector<bool> rows = filled(statistics::row_sums(input.table.counts));
  const std::vector<bool> columns = filled(statistics::column_sums(input.table.counts));
  input.about.empty_rows = without(input.table.row_labels, rows);
  input.about.empty_columns = without(input.table.column_labels, columns);
  keep_rows(input, rows, beside.columns);
  keep_columns(input, columns, beside.rows);
  if (!input.about.empty_rows.empty())
    input.warnings.push_back("rows that hold nothing are left out: " + listed(input.about.empty_rows));
  if (!input.about.empty_columns.empty())
    input.warnings.push_back("columns that no row has any of are left out: " + listed(input.about.empty_columns));
  input.about.rows = static_cast<std::int64_t>(input.table.counts.rows);
  input.about.columns = static_cast<std::int64_t>(input.table.counts.columns);
  // Amounts have at most three decimals in a record; sums of them should not show more.
  input.about.total = std::round(statistics::sum_of(input.table.counts.values) * 1e6) / 1e6;
  return {};
}

}  // namespace sherd::desk
