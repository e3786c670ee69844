#include "methods/compare/ordination.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "base/random.h"
#include "methods/statistics/decompose.h"
#include "methods/statistics/distributions.h"
#include "methods/statistics/draws.h"

namespace sherd::compare {

namespace {

using statistics::Matrix;
constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
constexpr std::int64_t kMostResamples = 100'000;
constexpr double kArched = 0.5;

double squared(double x) { return x * x; }

/// Turns every axis so that its greatest coordinate is positive; nearly equal ones: the first of them.
void fix_signs(Axes& axes) {
  for (std::size_t k = 0; k < axes.eigenvalues.size(); ++k) {
    double greatest = 0;
    const auto look = [&](const Matrix& points) {
      for (std::size_t i = 0; i < points.rows; ++i) greatest = std::max(greatest, std::abs(points(i, k)));
    };
    look(axes.rows);
    look(axes.columns);
    const auto sign_in = [&](const Matrix& points) {
      for (std::size_t i = 0; i < points.rows; ++i) {
        if (std::abs(points(i, k)) >= greatest * (1 - 1e-9)) return points(i, k) < 0 ? -1.0 : 1.0;
      }
      return 0.0;
    };
    double sign = sign_in(axes.rows);
    if (sign == 0.0) sign = sign_in(axes.columns);
    if (sign >= 0) continue;
    for (std::size_t i = 0; i < axes.rows.rows; ++i) axes.rows(i, k) = -axes.rows(i, k);
    for (std::size_t j = 0; j < axes.columns.rows; ++j) axes.columns(j, k) = -axes.columns(j, k);
  }
}

Matrix transposed(const Matrix& matrix) {
  Matrix out(matrix.columns, matrix.rows);
  for (std::size_t i = 0; i < matrix.rows; ++i) {
    for (std::size_t j = 0; j < matrix.columns; ++j) out(j, i) = matrix(i, j);
  }
  return out;
}

/// Squared chi-square distance of a profile from the average one.
double squared_distance(std::span<const double> amounts, double total, std::span<const double> mass) {
  double sum = 0;
  for (std::size_t j = 0; j < mass.size(); ++j) {
    if (mass[j] > 0) sum += squared(amounts[j] / total - mass[j]) / mass[j];
  }
  return sum;
}

std::vector<Point> points_of(const Matrix& counts, const std::vector<std::string>& labels, const Axes& axes,
                             const Matrix& standard, std::span<const double> mass, std::span<const double> other_mass,
                             std::size_t kept) {
  std::vector<Point> out(labels.size());
  const std::vector<double> totals = statistics::row_sums(counts);
  for (std::size_t i = 0; i < labels.size(); ++i) {
    Point& point = out[i];
    point.label = labels[i];
    point.mass = mass[i];
    const double d2 = squared_distance(counts.row(i), totals[i], other_mass);
    point.inertia = mass[i] * d2;
    for (std::size_t k = 0; k < kept; ++k) {
      const double coordinate = standard(i, k) * std::sqrt(axes.eigenvalues[k]);
      point.standard.push_back(standard(i, k));
      point.principal.push_back(coordinate);
      point.contribution.push_back(mass[i] * squared(standard(i, k)));
      point.quality.push_back(d2 > 0 ? squared(coordinate) / d2 : kNone);
    }
  }
  return out;
}

/// By the relation of a profile to the points on the other side: principal = sum of share x standard.
Result<std::vector<Point>> supplementary(const std::vector<Profile>& profiles, const Axes& axes, const Matrix& others,
                                         std::span<const double> other_mass, std::size_t kept) {
  std::vector<Point> out;
  for (const Profile& profile : profiles) {
    const double total = statistics::sum_of(profile.amounts);
    const bool fits = profile.amounts.size() == others.rows &&
                      std::ranges::all_of(profile.amounts, [](double x) { return std::isfinite(x) && x >= 0; });
    if (!fits || !(total > 0)) {
      return fail("bad_profile", fmt::format("\"{}\" cannot be placed on the axes", profile.label),
                  "a supplementary row or column has a number of 0 and above for each cell, and not 0 in all");
    }
    Point point{
        .label = profile.label, .standard = {}, .principal = {}, .contribution = {}, .quality = {}, .ellipse = {}};
    const double d2 = squared_distance(profile.amounts, total, other_mass);
    for (std::size_t k = 0; k < kept; ++k) {
      double sum = 0;
      for (std::size_t j = 0; j < others.rows; ++j) sum += profile.amounts[j] / total * others(j, k);
      point.principal.push_back(sum);
      point.standard.push_back(sum / std::sqrt(axes.eigenvalues[k]));
      point.quality.push_back(d2 > 0 ? squared(sum) / d2 : kNone);
    }
    out.push_back(std::move(point));
  }
  return out;
}

/// Sums of resampled places of one point.
struct Cloud {
  double n = 0, x = 0, y = 0, xx = 0, yy = 0, xy = 0;

  void add(double u, double v) {
    ++n;
    x += u;
    y += v;
    xx += u * u;
    yy += v * v;
    xy += u * v;
  }
  std::optional<Ellipse> ellipse() const {
    if (n < 3) return std::nullopt;
    const double mx = x / n;
    const double my = y / n;
    const double a = (xx - n * mx * mx) / (n - 1);
    const double b = (yy - n * my * my) / (n - 1);
    const double c = (xy - n * mx * my) / (n - 1);
    const double middle = (a + b) / 2;
    const double half = std::hypot((a - b) / 2, c);
    const double limit = -2 * std::log(0.05);  // of chi-square with 2 degrees of freedom
    Ellipse out{.centre = {mx, my}};
    out.major = std::sqrt(limit * std::max(0.0, middle + half));
    out.minor = std::sqrt(limit * std::max(0.0, middle - half));
    out.angle_degrees = 0.5 * std::atan2(2 * c, a - b) * 180 / std::numbers::pi;
    out.resamples = static_cast<std::int64_t>(n);
    return out;
  }
};

/// Places every line of `drawn` on the first two axes.
void place(const Matrix& drawn, const Matrix& others, std::vector<Cloud>& clouds) {
  for (std::size_t i = 0; i < drawn.rows; ++i) {
    double total = 0;
    double u = 0;
    double v = 0;
    for (std::size_t j = 0; j < drawn.columns; ++j) {
      const double amount = drawn(i, j);
      if (amount <= 0) continue;
      total += amount;
      u += amount * others(j, 0);
      if (others.columns > 1) v += amount * others(j, 1);
    }
    if (total > 0) clouds[i].add(u / total, v / total);
  }
}

Result<void> add_ellipses(const CountTable& table, const OrdinationSettings& settings, const Axes& axes,
                          Ordination& out, Progress& progress) {
  if (settings.resamples <= 0 || axes.eigenvalues.empty()) return {};
  if (!settings.counts || !whole_numbers(table)) {
    return fail("no_resampling", "amounts that are not counted things cannot be resampled",
                "ask without resamples, or compare counts or vessels");
  }
  const Matrix& counts = table.counts;
  const std::vector<double> totals = statistics::row_sums(counts);
  std::vector<Cloud> rows(counts.rows);
  std::vector<Cloud> columns(counts.columns);
  Matrix drawn(counts.rows, counts.columns);
  std::vector<double> line;
  for (std::int64_t r = 0; r < settings.resamples; ++r) {
    SHERD_CHECK(
        told(progress, static_cast<std::size_t>(r), static_cast<std::size_t>(settings.resamples), "resampling"));
    Random random(settings.seed, static_cast<std::uint64_t>(r));
    for (std::size_t i = 0; i < counts.rows; ++i) {
      statistics::draw_multinomial(static_cast<std::int64_t>(totals[i]), counts.row(i), random, line);
      std::copy(line.begin(), line.end(), drawn.values.begin() + static_cast<std::ptrdiff_t>(i * counts.columns));
    }
    place(drawn, axes.columns, rows);
    place(transposed(drawn), axes.rows, columns);
  }
  for (std::size_t i = 0; i < rows.size(); ++i) out.rows[i].ellipse = rows[i].ellipse();
  for (std::size_t j = 0; j < columns.size(); ++j) out.columns[j].ellipse = columns[j].ellipse();
  return {};
}

/// How much of axis 2 is a square of axis 1, weighted by mass.
void note_arch(Ordination& out) {
  if (out.rows.empty() || out.rows.front().standard.size() < 2 || out.rows.size() < 4) return;
  double third = 0;
  for (const Point& point : out.rows) third += point.mass * point.standard[0] * squared(point.standard[0]);
  double together = 0;
  double own = 0;
  for (const Point& point : out.rows) {
    const double x = point.standard[0];
    const double curve = x * x - 1 - third * x;  // orthogonal to the constant and to axis 1
    together += point.mass * curve * point.standard[1];
    own += point.mass * curve * curve;
  }
  if (!(own > 1e-12)) return;
  out.arch = squared(together) / own;
  if (*out.arch < kArched) return;
  out.arch_note = fmt::format(
      "Axis 2 is largely a square of axis 1 ({:.0f} % of it): an arch. One gradient, often time, orders the rows along "
      "axis 1, and axis 2 tells the middle from the ends, not a second cause.",
      100 * *out.arch);
}

}  // namespace

Axes axes_of(const Matrix& counts, std::size_t most) {
  Axes axes;
  const double total = statistics::sum_of(counts.values);
  axes.row_mass = statistics::row_sums(counts);
  axes.column_mass = statistics::column_sums(counts);
  for (double& mass : axes.row_mass) mass /= total;
  for (double& mass : axes.column_mass) mass /= total;
  std::vector<double> row_root(counts.rows);
  std::vector<double> column_root(counts.columns);
  for (std::size_t i = 0; i < counts.rows; ++i) row_root[i] = std::sqrt(axes.row_mass[i]);
  for (std::size_t j = 0; j < counts.columns; ++j) column_root[j] = std::sqrt(axes.column_mass[j]);
  Matrix deviations(counts.rows, counts.columns);
  for (std::size_t i = 0; i < counts.rows; ++i) {
    for (std::size_t j = 0; j < counts.columns; ++j) {
      const double roots = row_root[i] * column_root[j];
      if (roots <= 0) continue;
      const double deviation = counts(i, j) / total / roots - roots;
      deviations(i, j) = deviation;
      axes.inertia += squared(deviation);
    }
  }
  const std::size_t rank = std::min(counts.rows, counts.columns) - 1;
  const statistics::Singular parts = statistics::singular_values(deviations, std::min(most, rank));
  // Rows that are all alike leave only rounding.
  std::size_t kept = 0;
  while (kept < parts.values.size() && squared(parts.values[kept]) > 1e-15) ++kept;
  for (std::size_t k = 0; k < kept; ++k) axes.eigenvalues.push_back(squared(parts.values[k]));
  axes.rows = Matrix(counts.rows, kept);
  axes.columns = Matrix(counts.columns, kept);
  for (std::size_t k = 0; k < kept; ++k) {
    for (std::size_t i = 0; i < counts.rows; ++i) {
      if (row_root[i] > 0) axes.rows(i, k) = parts.left(i, k) / row_root[i];
    }
    for (std::size_t j = 0; j < counts.columns; ++j) {
      if (column_root[j] > 0) axes.columns(j, k) = parts.right(j, k) / column_root[j];
    }
  }
  fix_signs(axes);
  return axes;
}

Result<Ordination> ordination(const CountTable& table, const OrdinationSettings& settings, Progress& progress) {
  SHERD_CHECK(check_table(table, 2, 2));
  if (settings.resamples < 0 || settings.resamples > kMostResamples) {
    return fail("too_many_resamples", fmt::format("{} resamples cannot be made", settings.resamples),
                fmt::format("give a number from 0 (no ellipses) to {}", kMostResamples));
  }
  const Axes axes = axes_of(table.counts, std::numeric_limits<std::size_t>::max());
  Ordination out;
  out.eigenvalues = axes.eigenvalues;
  out.inertia = axes.inertia;
  for (const double value : axes.eigenvalues) out.inertia_shares.push_back(value / axes.inertia);
  out.df = static_cast<std::int64_t>((table.counts.rows - 1) * (table.counts.columns - 1));
  if (settings.counts) {
    out.chi_square = axes.inertia * statistics::sum_of(table.counts.values);
    out.p = statistics::chi_square_upper(*out.chi_square, static_cast<double>(out.df));
  }
  const std::size_t kept = std::min(settings.axes, axes.eigenvalues.size());
  out.rows = points_of(table.counts, table.row_labels, axes, axes.rows, axes.row_mass, axes.column_mass, kept);
  out.columns = points_of(transposed(table.counts), table.column_labels, axes, axes.columns, axes.column_mass,
                          axes.row_mass, kept);
  SHERD_TRY(out.supplementary_rows, supplementary(settings.rows, axes, axes.columns, axes.column_mass, kept));
  SHERD_TRY(out.supplementary_columns, supplementary(settings.columns, axes, axes.rows, axes.row_mass, kept));
  SHERD_CHECK(add_ellipses(table, settings, axes, out, progress));
  note_arch(out);
  return out;
}

}  // namespace sherd::compare
