#include "methods/compare/similarity.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/random.h"
#include "methods/statistics/draws.h"

namespace sherd::compare {

namespace {

using statistics::Matrix;
constexpr std::int64_t kMostDraws = 100'000;

double coefficient(std::span<const double> a, std::span<const double> b, double total_a, double total_b) {
  double differences = 0;
  for (std::size_t k = 0; k < a.size(); ++k) differences += std::abs(a[k] / total_a - b[k] / total_b);
  return std::clamp(200 - 100 * differences, 0.0, 200.0);
}

double chance(std::span<const double> a, std::span<const double> b, double observed, std::int64_t draws,
              Random& random) {
  std::vector<double> pooled(a.size());
  for (std::size_t k = 0; k < a.size(); ++k) pooled[k] = a[k] + b[k];
  const double total_a = statistics::sum_of(a);
  const double total_b = statistics::sum_of(b);
  std::int64_t as_low = 1;
  std::vector<double> x;
  std::vector<double> y;
  for (std::int64_t draw = 0; draw < draws; ++draw) {
    statistics::draw_multinomial(static_cast<std::int64_t>(total_a), pooled, random, x);
    statistics::draw_multinomial(static_cast<std::int64_t>(total_b), pooled, random, y);
    if (coefficient(x, y, total_a, total_b) <= observed + 1e-9) ++as_low;
  }
  return static_cast<double>(as_low) / static_cast<double>(draws + 1);
}

}  // namespace

Matrix robinson_matrix(const Matrix& profiles) {
  Matrix out(profiles.rows, profiles.rows);
  for (std::size_t i = 0; i < profiles.rows; ++i) {
    out(i, i) = 200;
    for (std::size_t j = 0; j < i; ++j) out(i, j) = out(j, i) = coefficient(profiles.row(i), profiles.row(j), 1, 1);
  }
  return out;
}

Result<Similarity> similarity(const CountTable& table, const SimilaritySettings& settings, Progress& progress) {
  SHERD_CHECK(check_table(table, 2, 1));
  if (settings.draws < 0 || settings.draws > kMostDraws) {
    return fail("too_many_resamples", fmt::format("{} draws cannot be made", settings.draws),
                fmt::format("give a number from 0 to {}", kMostDraws));
  }
  const std::size_t n = table.counts.rows;
  const Matrix matrix = robinson_matrix(row_profiles(table.counts));
  Similarity out{.labels = table.row_labels, .matrix = {}, .p = {}};
  out.p.assign(n, std::vector<std::optional<double>>(n));
  for (std::size_t i = 0; i < n; ++i) out.matrix.emplace_back(matrix.row(i).begin(), matrix.row(i).end());
  if (settings.draws == 0 || !settings.counts || !whole_numbers(table)) return out;
  out.draws = settings.draws;
  std::uint64_t pair = 0;
  for (std::size_t i = 0; i < n; ++i) {
    if (!progress.step(static_cast<double>(i) / static_cast<double>(n), "drawing pairs"))
      return fail(ErrorKind::stopped, "stopped", "stopped");
    for (std::size_t j = i + 1; j < n; ++j) {
      Random random(settings.seed, pair++);
      out.p[i][j] = out.p[j][i] =
          chance(table.counts.row(i), table.counts.row(j), matrix(i, j), settings.draws, random);
    }
  }
  return out;
}

}  // namespace sherd::compare
