#include "methods/compare/difference.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "base/random.h"
#include "base/text.h"
#include "methods/statistics/distributions.h"
#include "methods/statistics/draws.h"
#include "methods/statistics/quantile.h"

namespace sherd::compare {

namespace {

using statistics::Matrix;
constexpr std::int64_t kMostDraws = 100'000;
constexpr double kMostShuffled = 50'000;  // pieces
constexpr double kFew = 5;
constexpr double kDrives = 2;
constexpr std::size_t kMostDrivers = 20;

double squared(double x) { return x * x; }

std::vector<std::vector<double>> lists(const Matrix& matrix) {
  std::vector<std::vector<double>> out;
  for (std::size_t i = 0; i < matrix.rows; ++i) out.emplace_back(matrix.row(i).begin(), matrix.row(i).end());
  return out;
}

Matrix expected_of(const Matrix& counts) {
  const std::vector<double> rows = statistics::row_sums(counts);
  const std::vector<double> columns = statistics::column_sums(counts);
  const double total = statistics::sum_of(rows);
  Matrix out(counts.rows, counts.columns);
  for (std::size_t i = 0; i < counts.rows; ++i) {
    for (std::size_t j = 0; j < counts.columns; ++j) out(i, j) = rows[i] * columns[j] / total;
  }
  return out;
}

double chi_square(const Matrix& counts, const Matrix& expected) {
  double sum = 0;
  for (std::size_t k = 0; k < counts.values.size(); ++k) {
    if (expected.values[k] > 0) sum += squared(counts.values[k] - expected.values[k]) / expected.values[k];
  }
  return sum;
}

double chi_square(const Matrix& counts) { return chi_square(counts, expected_of(counts)); }

double g_square(const Matrix& counts, const Matrix& expected) {
  double sum = 0;
  for (std::size_t k = 0; k < counts.values.size(); ++k) {
    if (counts.values[k] > 0) sum += counts.values[k] * std::log(counts.values[k] / expected.values[k]);
  }
  return std::max(0.0, 2 * sum);
}

void add_yates(const Matrix& counts, const Matrix& expected, Difference& out) {
  if (counts.rows != 2 || counts.columns != 2) return;
  const double correction = std::min(0.5, std::abs(counts(0, 0) - expected(0, 0)));
  double sum = 0;
  for (std::size_t k = 0; k < 4; ++k)
    sum += squared(std::abs(counts.values[k] - expected.values[k]) - correction) / expected.values[k];
  out.chi_square_yates = sum;
  out.p_yates = statistics::chi_square_upper(sum, 1);
}

void add_residuals(const CountTable& table, const Matrix& expected, Difference& out) {
  const Matrix& counts = table.counts;
  const std::vector<double> rows = statistics::row_sums(counts);
  const std::vector<double> columns = statistics::column_sums(counts);
  const double total = statistics::sum_of(rows);
  Matrix residuals(counts.rows, counts.columns);
  for (std::size_t i = 0; i < counts.rows; ++i) {
    for (std::size_t j = 0; j < counts.columns; ++j) {
      const double variance = expected(i, j) * (1 - rows[i] / total) * (1 - columns[j] / total);
      if (variance > 0) residuals(i, j) = (counts(i, j) - expected(i, j)) / std::sqrt(variance);
      if (std::abs(residuals(i, j)) > kDrives) {
        out.drivers.push_back(
            {table.row_labels[i], table.column_labels[j], counts(i, j), expected(i, j), residuals(i, j)});
      }
    }
  }
  std::ranges::stable_sort(
      out.drivers, [](const Driver& a, const Driver& b) { return std::abs(a.residual) > std::abs(b.residual); });
  if (out.drivers.size() > kMostDrivers) out.drivers.resize(kMostDrivers);
  out.adjusted_residuals = lists(residuals);
}

/// The rarest columns, as many as it takes for one that is expected 5 times or more in every row.
void suggest_merging(const CountTable& table, const Matrix& expected, Difference& out) {
  out.least_expected = *std::ranges::min_element(expected.values);
  out.expected_below_5 = std::ranges::count_if(expected.values, [](double x) { return x < kFew; });
  if (out.expected_below_5 == 0 || table.counts.columns < 3) return;
  const std::vector<double> columns = statistics::column_sums(table.counts);
  const std::vector<double> rows = statistics::row_sums(table.counts);
  const double least_share = *std::ranges::min_element(rows) / statistics::sum_of(rows);
  std::vector<std::size_t> rarest(columns.size());
  std::iota(rarest.begin(), rarest.end(), std::size_t{0});
  std::ranges::stable_sort(rarest, [&](std::size_t a, std::size_t b) { return columns[a] < columns[b]; });
  double sum = 0;
  std::vector<std::string> names;
  for (std::size_t k = 0; k + 1 < rarest.size(); ++k) {
    sum += columns[rarest[k]];
    names.push_back(table.column_labels[rarest[k]]);
    const bool next_is_small = columns[rarest[k + 1]] * least_share < kFew;
    if (names.size() < 2 || sum * least_share < kFew || next_is_small) continue;
    // Where it takes most columns it is a row that is too small, not the columns.
    if (2 * names.size() <= columns.size() + 1) out.merge_suggestion = names;
    return;
  }
}

/// Everything that follows from the table alone.
Difference of_table(const CountTable& table) {
  const Matrix expected = expected_of(table.counts);
  Difference out{.labels = table.row_labels, .types = table.column_labels};
  out.pseudo_counts = lists(table.counts);
  out.n_effective = statistics::row_sums(table.counts);
  out.expected = lists(expected);
  out.chi_square = chi_square(table.counts, expected);
  out.g_square = g_square(table.counts, expected);
  out.df = static_cast<std::int64_t>((table.counts.rows - 1) * (table.counts.columns - 1));
  out.p = statistics::chi_square_upper(out.chi_square, static_cast<double>(out.df));
  out.g_p = statistics::chi_square_upper(out.g_square, static_cast<double>(out.df));
  const auto sides = static_cast<double>(std::min(table.counts.rows, table.counts.columns) - 1);
  out.cramers_v = std::sqrt(out.chi_square / (statistics::sum_of(out.n_effective) * sides));
  add_yates(table.counts, expected, out);
  add_residuals(table, expected, out);
  suggest_merging(table, expected, out);
  return out;
}

Result<void> check(const DifferenceSettings& settings) {
  for (const std::int64_t draws : {settings.shuffles, settings.resamples}) {
    if (draws >= 0 && draws <= kMostDraws) continue;
    return fail("too_many_resamples", fmt::format("{} resamples cannot be made", draws),
                fmt::format("give a number from 0 to {}", kMostDraws));
  }
  return {};
}

/// Shares of each row, the intervals from what `draw` fills in for row i in resample r.
template <class Draw>
Result<void> add_shares(const CountTable& amounts, std::int64_t resamples, Draw draw, Difference& out,
                        Progress& progress) {
  const Matrix profiles = row_profiles(amounts.counts);
  const std::size_t wide = amounts.counts.columns;
  for (std::size_t i = 0; i < amounts.counts.rows; ++i) {
    std::vector<std::vector<double>> found(wide);
    std::vector<double> line(wide);
    for (std::int64_t r = 0; r < resamples; ++r) {
      SHERD_CHECK(told(progress, static_cast<std::size_t>(r), static_cast<std::size_t>(resamples), "resampling"));
      draw(i, r, line);
      const double sum = statistics::sum_of(line);
      for (std::size_t j = 0; j < wide; ++j) found[j].push_back(line[j] / sum);
    }
    for (std::size_t j = 0; j < wide; ++j) {
      Share share{.row = amounts.row_labels[i], .column = amounts.column_labels[j], .share = profiles(i, j)};
      if (const auto interval = statistics::central_interval(std::move(found[j]))) {
        share.low95 = (*interval)[0];
        share.high95 = (*interval)[1];
      }
      out.shares.push_back(std::move(share));
    }
  }
  return {};
}

/// p of a chi-square among those of `table_of(random)`.
template <class TableOf>
Result<void> shuffled(Difference& out, const DifferenceSettings& settings, TableOf table_of, Progress& progress) {
  if (settings.shuffles == 0) return {};
  Random random(settings.seed, 0);
  std::int64_t as_great = 1;
  for (std::int64_t r = 0; r < settings.shuffles; ++r) {
    SHERD_CHECK(told(progress, static_cast<std::size_t>(r), static_cast<std::size_t>(settings.shuffles), "shuffling"));
    if (chi_square(table_of(random)) >= out.chi_square * (1 - 1e-12)) ++as_great;
  }
  out.shuffles = settings.shuffles;
  out.p_shuffled = static_cast<double>(as_great) / static_cast<double>(settings.shuffles + 1);
  return {};
}

std::uint64_t stream_of(std::size_t row, std::int64_t resample) {
  return 1 + (static_cast<std::uint64_t>(row) << 32U) + static_cast<std::uint64_t>(resample);
}

}  // namespace

Matrix pseudo_counts(std::size_t rows, std::size_t columns, const std::vector<Family>& families) {
  Matrix out(rows, columns);
  std::vector<double> sum(rows, 0.0);
  std::vector<double> squares(rows, 0.0);
  std::vector<double> m(rows, 0.0);
  for (const Family& family : families) {
    out(family.row, family.column) += family.eve;
    sum[family.row] += family.eve;
    squares[family.row] += squared(family.eve);
    ++m[family.row];
  }
  for (std::size_t i = 0; i < rows; ++i) {
    const double factor = m[i] < 2 ? std::numeric_limits<double>::quiet_NaN() : (m[i] - 1) / m[i] * sum[i] / squares[i];
    for (std::size_t j = 0; j < columns; ++j) out(i, j) *= factor;
  }
  return out;
}

Result<Difference> difference(const CountTable& counts, const DifferenceSettings& settings, Progress& progress) {
  SHERD_CHECK(check_table(counts, 2, 2));
  SHERD_CHECK(check(settings));
  Difference out = of_table(counts);
  const double total = statistics::sum_of(out.n_effective);
  const bool whole = whole_numbers(counts);
  if (whole && total <= kMostShuffled) {
    std::vector<std::size_t> rows;
    std::vector<std::size_t> columns;
    for (std::size_t i = 0; i < counts.counts.rows; ++i) {
      for (std::size_t j = 0; j < counts.counts.columns; ++j) {
        rows.insert(rows.end(), static_cast<std::size_t>(counts.counts(i, j)), i);
        columns.insert(columns.end(), static_cast<std::size_t>(counts.counts(i, j)), j);
      }
    }
    SHERD_CHECK(shuffled(
        out, settings,
        [&](Random& random) {
          statistics::shuffle(columns, random);
          Matrix dealt(counts.counts.rows, counts.counts.columns);
          for (std::size_t k = 0; k < rows.size(); ++k) ++dealt(rows[k], columns[k]);
          return dealt;
        },
        progress));
  }
  const auto draw = [&](std::size_t i, std::int64_t r, std::vector<double>& line) {
    Random random(settings.seed, stream_of(i, r));
    statistics::draw_multinomial(static_cast<std::int64_t>(out.n_effective[i]), counts.counts.row(i), random, line);
  };
  SHERD_CHECK(add_shares(counts, whole ? settings.resamples : 0, draw, out, progress));
  return out;
}

Result<Difference> difference(const std::vector<std::string>& labels, const std::vector<std::string>& types,
                              const std::vector<Family>& families, const DifferenceSettings& settings,
                              Progress& progress) {
  SHERD_CHECK(check(settings));
  CountTable eve{.row_labels = labels, .column_labels = types, .counts = Matrix(labels.size(), types.size())};
  std::vector<std::vector<const Family*>> of_row(labels.size());
  for (const Family& family : families) {
    if (family.row >= labels.size() || family.column >= types.size() || !(family.eve > 0))
      return fail(ErrorKind::internal, "bad_family", "a family without a row, a type or a part of a rim");
    eve.counts(family.row, family.column) += family.eve;
    of_row[family.row].push_back(&family);
  }
  std::vector<std::string> few;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    if (of_row[i].size() < 2) few.push_back(labels[i]);
  }
  if (!few.empty()) {
    return fail("too_few_families", "fewer than two measurable vessels in " + join(few, ", "),
                "leave these out, or put them together with others: one vessel tells nothing of chance");
  }
  SHERD_CHECK(check_table(eve, 2, 2));
  CountTable pseudo = eve;
  pseudo.counts = pseudo_counts(labels.size(), types.size(), families);
  Difference out = of_table(pseudo);
  for (const auto& row : of_row) out.families.push_back(static_cast<std::int64_t>(row.size()));
  std::vector<std::size_t> rows;
  for (const Family& family : families) rows.push_back(family.row);
  SHERD_CHECK(shuffled(
      out, settings,
      [&](Random& random) {
        statistics::shuffle(rows, random);
        std::vector<Family> dealt = families;
        for (std::size_t k = 0; k < dealt.size(); ++k) dealt[k].row = rows[k];
        return pseudo_counts(labels.size(), types.size(), dealt);
      },
      progress));
  const auto draw = [&](std::size_t i, std::int64_t r, std::vector<double>& line) {
    Random random(settings.seed, stream_of(i, r));
    std::ranges::fill(line, 0.0);
    for (std::size_t k = 0; k < of_row[i].size(); ++k) {
      const Family& one = *of_row[i][random.below(static_cast<std::uint32_t>(of_row[i].size()))];
      line[one.column] += one.eve;
    }
  };
  SHERD_CHECK(add_shares(eve, settings.resamples, draw, out, progress));
  return out;
}

}  // namespace sherd::compare
