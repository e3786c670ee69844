#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "methods/compare/clusters.h"
#include "methods/compare/difference.h"
#include "methods/compare/diversity.h"
#include "methods/compare/ordering.h"
#include "methods/compare/ordination.h"
#include "methods/compare/similarity.h"
#include "methods/compare/testing.h"

/// What holds of any table of counts, whatever its numbers.
namespace sherd::compare {
namespace {

/// Rows and columns that each hold something.
CountTable any_table() {
  const auto rows = *rc::gen::inRange<std::size_t>(3, 9), columns = *rc::gen::inRange<std::size_t>(3, 8);
  CountTable table;
  for (std::size_t i = 0; i < rows; ++i) table.row_labels.push_back("r" + std::to_string(i));
  for (std::size_t j = 0; j < columns; ++j) table.column_labels.push_back("c" + std::to_string(j));
  table.counts = statistics::Matrix(rows, columns);
  for (double& cell : table.counts.values) cell = std::max(0, *rc::gen::inRange(-6, 40));
  for (std::size_t i = 0; i < rows; ++i) table.counts(i, i % columns) += 3;
  for (std::size_t j = 0; j < columns; ++j) table.counts(j % rows, j) += 2;
  return table;
}

CountTable turned(const CountTable& table, const std::vector<std::size_t>& order) {
  CountTable out = table;
  for (std::size_t i = 0; i < order.size(); ++i) {
    out.row_labels[i] = table.row_labels[order[i]];
    for (std::size_t j = 0; j < table.counts.columns; ++j) out.counts(i, j) = table.counts(order[i], j);
  }
  return out;
}

std::vector<std::size_t> any_order(std::size_t n) {
  std::vector<std::size_t> order(n);
  std::iota(order.begin(), order.end(), std::size_t{0});
  for (std::size_t i = n; i > 1; --i) std::swap(order[i - 1], order[*rc::gen::inRange<std::size_t>(0, i)]);
  return order;
}

bool close(double a, double b) { return std::abs(a - b) <= 1e-7 * std::max(1.0, std::abs(a)); }

RC_GTEST_PROP(ComparedTables, inertia_is_chi_square_over_n_and_contributions_add_up_to_1, ()) {
  const CountTable table = any_table();
  NoProgress quiet;
  const auto found = ordination(table, {}, quiet);
  RC_ASSERT(found.has_value());
  double eigenvalues = 0;
  for (const double value : found->eigenvalues) eigenvalues += value;
  RC_ASSERT(close(eigenvalues, *found->chi_square / statistics::sum_of(table.counts.values)));
  double mass = 0;
  for (const Point& point : found->rows) mass += point.mass;
  RC_ASSERT(close(mass, 1));
  for (std::size_t k = 0; k < found->rows[0].contribution.size(); ++k) {
    if (found->eigenvalues[k] < 1e-9) continue;
    double rows = 0, most = 0, least = 0;
    for (const Point& point : found->rows) rows += point.contribution[k];
    for (const auto* side : {&found->rows, &found->columns}) {
      for (const Point& point : *side) {
        most = std::max(most, point.standard[k]);
        least = std::min(least, point.standard[k]);
      }
    }
    RC_ASSERT(close(rows, 1));
    RC_ASSERT(most >= -least - 1e-9);  // the greatest coordinate is positive
  }
}

RC_GTEST_PROP(ComparedTables, the_order_of_rows_changes_no_number, ()) {
  const CountTable table = any_table();
  const std::vector<std::size_t> order = any_order(table.row_labels.size());
  const CountTable other = turned(table, order);
  NoProgress quiet;
  const auto a = ordination(table, {}, quiet), b = ordination(other, {}, quiet);
  RC_ASSERT(a.has_value() && b.has_value());
  for (std::size_t k = 0; k < a->eigenvalues.size(); ++k) RC_ASSERT(close(a->eigenvalues[k], b->eigenvalues[k]));
  const auto s = similarity(table, {.draws = 0}, quiet), t = similarity(other, {.draws = 0}, quiet);
  const auto d = difference(table, {.shuffles = 0, .resamples = 0}, quiet);
  const auto e = difference(other, {.shuffles = 0, .resamples = 0}, quiet);
  const auto v = diversity(table, {.sizes = {}, .draws = 0}, quiet),
             w = diversity(other, {.sizes = {}, .draws = 0}, quiet);
  RC_ASSERT(close(d->chi_square, e->chi_square));
  RC_ASSERT(close(d->g_square, e->g_square));
  for (std::size_t i = 0; i < order.size(); ++i) {
    RC_ASSERT(close(v->rows[order[i]].shannon, w->rows[i].shannon));
    for (std::size_t j = 0; j < order.size(); ++j) RC_ASSERT(close(s->matrix[order[i]][order[j]], t->matrix[i][j]));
    for (std::size_t j = 0; j < table.counts.columns; ++j)
      RC_ASSERT(close(d->adjusted_residuals[order[i]][j], e->adjusted_residuals[i][j]));
  }
}

RC_GTEST_PROP(ComparedTables, expected_counts_keep_the_totals_of_rows_and_columns, ()) {
  const CountTable table = any_table();
  NoProgress quiet;
  const auto found = difference(table, {.shuffles = 0, .resamples = 0}, quiet);
  RC_ASSERT(found.has_value());
  const std::vector<double> rows = statistics::row_sums(table.counts), columns = statistics::column_sums(table.counts);
  for (std::size_t i = 0; i < rows.size(); ++i) RC_ASSERT(close(statistics::sum_of(found->expected[i]), rows[i]));
  for (std::size_t j = 0; j < columns.size(); ++j) {
    double sum = 0;
    for (const auto& row : found->expected) sum += row[j];
    RC_ASSERT(close(sum, columns[j]));
  }
}

RC_GTEST_PROP(ComparedTables, similarity_is_symmetric_within_its_bounds_and_200_with_itself, ()) {
  const CountTable table = any_table();
  NoProgress quiet;
  const auto found = similarity(table, {.draws = 0}, quiet);
  RC_ASSERT(found.has_value());
  for (std::size_t i = 0; i < found->labels.size(); ++i) {
    RC_ASSERT(close(found->matrix[i][i], 200));
    for (std::size_t j = 0; j < found->labels.size(); ++j) {
      RC_ASSERT(close(found->matrix[i][j], found->matrix[j][i]));
      RC_ASSERT(found->matrix[i][j] >= -1e-9 && found->matrix[i][j] <= 200 + 1e-9);
    }
  }
}

RC_GTEST_PROP(ComparedTables, an_order_holds_each_row_once_and_no_more_events_than_the_axis, ()) {
  const CountTable table = any_table();
  NoProgress quiet;
  const auto found = ordering(table, {.resamples = 0}, quiet);
  if (!found) {
    RC_ASSERT(found.error().code == "no_order");
    return;
  }
  std::vector<std::string> sorted = found->order;
  std::ranges::sort(sorted);
  std::vector<std::string> labels = table.row_labels;
  std::ranges::sort(labels);
  RC_ASSERT(sorted == labels);
  for (const OrderFound& one : found->tried) RC_ASSERT(found->anti_robinson_events <= one.events);
  for (const Bars& bars : found->bars) RC_ASSERT(close(statistics::sum_of(bars.percent), 100));
}

RC_GTEST_PROP(ComparedTables, events_are_those_of_every_triple_looked_at, ()) {
  const auto n = *rc::gen::inRange<std::size_t>(1, 20);
  statistics::Matrix s(n, n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j <= i; ++j) s(i, j) = s(j, i) = *rc::gen::inRange(0, 6);  // with many ties
  }
  std::vector<std::size_t> order(n);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::int64_t events = 0;
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = i + 1; j < n; ++j) {
      for (std::size_t k = j + 1; k < n; ++k)
        events += static_cast<std::int64_t>(s(i, k) > s(i, j)) + static_cast<std::int64_t>(s(i, k) > s(j, k));
    }
  }
  RC_ASSERT(anti_robinson_events(s, order) == events);
}

RC_GTEST_PROP(ComparedTables, types_to_expect_grow_from_1_to_what_was_found, ()) {
  const CountTable table = any_table();
  NoProgress quiet;
  const auto found = diversity(table, {.sizes = {}, .draws = 0}, quiet);
  RC_ASSERT(found.has_value());
  for (const DiversityRow& row : found->rows) {
    RC_ASSERT(close(row.expected_richness.front().value,
                    row.expected_richness.front().n == 1 ? 1 : row.expected_richness.front().value));
    for (std::size_t k = 1; k < row.expected_richness.size(); ++k)
      RC_ASSERT(row.expected_richness[k].value >= row.expected_richness[k - 1].value - 1e-9);
    RC_ASSERT(row.expected_richness.back().value <= static_cast<double>(row.richness) + 1e-9);
  }
}

}  // namespace
}  // namespace sherd::compare
