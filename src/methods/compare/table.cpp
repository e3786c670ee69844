#include "methods/compare/table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "base/text.h"

namespace sherd::compare {

namespace {

std::vector<std::string> empty_ones(const std::vector<double>& sums, const std::vector<std::string>& labels) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < sums.size(); ++i) {
    if (sums[i] <= 0) out.push_back(labels[i]);
  }
  return out;
}

std::string some_of(const std::vector<std::string>& names) {
  constexpr std::size_t kShown = 10;
  if (names.size() <= kShown) return join(names, ", ");
  return join(std::span(names).first(kShown), ", ") + fmt::format(" and {} more", names.size() - kShown);
}

Result<void> check_cells(const CountTable& table) {
  for (std::size_t i = 0; i < table.counts.rows; ++i) {
    for (std::size_t j = 0; j < table.counts.columns; ++j) {
      const double value = table.counts(i, j);
      if (std::isfinite(value) && value >= 0) continue;
      Error error{
          .code = std::isfinite(value) ? "negative_count" : "not_a_number",
          .message = fmt::format("\"{}\" has {} of \"{}\"", table.row_labels[i],
                                 std::isfinite(value) ? format_double(value) : "no number", table.column_labels[j]),
          .hint = "amounts are numbers of 0 and above"};
      error.where.id = table.row_labels[i];
      error.where.column = table.column_labels[j];
      return fail(std::move(error));
    }
  }
  return {};
}

Result<void> check_size(std::size_t is, std::size_t least, const char* code, const char* what) {
  if (is >= least) return {};
  return fail(code, fmt::format("the table has {} with anything in it; this needs at least {}",
                                counted(static_cast<long long>(is), what), least));
}

}  // namespace

Result<void> check_table(const CountTable& table, std::size_t least_rows, std::size_t least_columns) {
  const statistics::Matrix& counts = table.counts;
  if (counts.rows != table.row_labels.size() || counts.columns != table.column_labels.size() ||
      counts.values.size() != counts.rows * counts.columns) {
    return fail(ErrorKind::internal, "columns_differ", "the table is not of the shape that its labels say");
  }
  SHERD_CHECK(check_cells(table));
  SHERD_CHECK(check_size(counts.rows, least_rows, "too_few_rows", "row"));
  SHERD_CHECK(check_size(counts.columns, least_columns, "too_few_columns", "column"));
  if (const auto rows = empty_ones(statistics::row_sums(counts), table.row_labels); !rows.empty())
    return fail("empty_row", "nothing lies in " + some_of(rows), "leave such rows out: they have no composition");
  if (const auto columns = empty_ones(statistics::column_sums(counts), table.column_labels); !columns.empty())
    return fail("empty_column", "no row has any of " + some_of(columns), "leave such columns out");
  return {};
}

Trimmed without_empty(const CountTable& table) {
  const std::vector<double> rows = statistics::row_sums(table.counts);
  const std::vector<double> columns = statistics::column_sums(table.counts);
  Trimmed out{.table = {},
              .empty_rows = empty_ones(rows, table.row_labels),
              .empty_columns = empty_ones(columns, table.column_labels)};
  for (std::size_t j = 0; j < columns.size(); ++j) {
    if (!(columns[j] <= 0)) out.table.column_labels.push_back(table.column_labels[j]);
  }
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i] <= 0) continue;
    out.table.row_labels.push_back(table.row_labels[i]);
    for (std::size_t j = 0; j < columns.size(); ++j) {
      if (!(columns[j] <= 0)) out.table.counts.values.push_back(table.counts(i, j));
    }
  }
  out.table.counts.rows = out.table.row_labels.size();
  out.table.counts.columns = out.table.column_labels.size();
  return out;
}

bool whole_numbers(const CountTable& table) {
  return std::ranges::all_of(table.counts.values,
                             [](double value) { return std::floor(value) == value && value < 4e9; });
}

Result<CountTable> merge_columns(const CountTable& table, const std::vector<std::vector<std::string>>& sets) {
  const std::size_t n = table.column_labels.size();
  std::vector<std::size_t> into(n);
  for (std::size_t j = 0; j < n; ++j) into[j] = j;
  std::vector<std::string> names = table.column_labels;
  std::vector<bool> used(n, false);
  for (const std::vector<std::string>& set : sets) {
    std::size_t target = n;
    for (const std::string& label : set) {
      const auto at = std::ranges::find(table.column_labels, label);
      if (at == table.column_labels.end())
        return fail("no_column", "there is no column \"" + label + "\" to merge",
                    did_you_mean(label, table.column_labels));
      const auto j = static_cast<std::size_t>(at - table.column_labels.begin());
      if (used[j]) return fail("column_twice", "\"" + label + "\" is to be merged twice");
      used[j] = true;
      target = std::min(target, j);
    }
    for (const std::string& label : set)
      into[static_cast<std::size_t>(std::ranges::find(table.column_labels, label) - table.column_labels.begin())] =
          target;
    if (target < n) names[target] = join(set, " + ");
  }
  CountTable out{.row_labels = table.row_labels, .column_labels = {}, .counts = {}};
  std::vector<std::size_t> place(n, 0);
  for (std::size_t j = 0; j < n; ++j) {
    if (into[j] != j) continue;
    place[j] = out.column_labels.size();
    out.column_labels.push_back(names[j]);
  }
  out.counts = statistics::Matrix(table.counts.rows, out.column_labels.size());
  for (std::size_t i = 0; i < table.counts.rows; ++i) {
    for (std::size_t j = 0; j < n; ++j) out.counts(i, place[into[j]]) += table.counts(i, j);
  }
  return out;
}

statistics::Matrix row_profiles(const statistics::Matrix& counts) {
  statistics::Matrix out = counts;
  const std::vector<double> sums = statistics::row_sums(counts);
  for (std::size_t i = 0; i < out.rows; ++i) {
    for (std::size_t j = 0; j < out.columns; ++j) out(i, j) = sums[i] > 0 ? counts(i, j) / sums[i] : 0.0;
  }
  return out;
}

Result<void> told(Progress& progress, std::size_t done, std::size_t all, const char* text) {
  constexpr std::size_t kEvery = 16;
  if (done % kEvery != 0) return {};
  if (progress.step(all == 0 ? 1.0 : static_cast<double>(done) / static_cast<double>(all), text)) return {};
  return fail(ErrorKind::stopped, "stopped", "stopped");
}

}  // namespace sherd::compare
