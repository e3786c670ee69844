#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "methods/compare/ordination.h"
#include "methods/statistics/decompose.h"
#include "methods/statistics/distributions.h"

namespace sherd::compare {

namespace {

using statistics::Matrix;
using statistics::Regression;
constexpr std::size_t kMostAxes = 20;
constexpr std::size_t kDatedPerAxis = 5;  // fewer, and the choice among axes makes intervals too narrow

std::vector<double> design_row(const Point& point, std::size_t axes) {
  std::vector<double> row{1.0};
  row.insert(row.end(), point.principal.begin(), point.principal.begin() + static_cast<std::ptrdiff_t>(axes));
  return row;
}

struct Dated {
  std::vector<const Point*> points;
  std::vector<double> years;
};

std::optional<Regression> fit(const Dated& dated, std::size_t axes) {
  Matrix design(dated.points.size(), axes + 1);
  for (std::size_t i = 0; i < dated.points.size(); ++i) {
    const std::vector<double> row = design_row(*dated.points[i], axes);
    std::copy(row.begin(), row.end(), design.values.begin() + static_cast<std::ptrdiff_t>(i * (axes + 1)));
  }
  return statistics::least_squares(design, dated.years);
}

/// What the others predict for the i-th: by its residual and leverage, without fitting anew.
double left_out(const Regression& regression, const Dated& dated, std::size_t i, std::size_t axes) {
  const double leverage = std::min(regression.leverage(design_row(*dated.points[i], axes)), 1 - 1e-9);
  return dated.years[i] - (dated.years[i] - regression.fitted[i]) / (1 - leverage);
}

double left_out_squares(const Regression& regression, const Dated& dated, std::size_t axes) {
  double sum = 0;
  for (std::size_t i = 0; i < dated.years.size(); ++i) {
    const double error = dated.years[i] - left_out(regression, dated, i, axes);
    sum += error * error;
  }
  return sum;
}

struct Chosen {
  Regression regression;
  std::size_t axes = 0;
  double squares = 0;
};

std::optional<Chosen> choose(const Dated& dated, std::size_t asked, std::size_t available) {
  std::optional<Chosen> best;
  const std::size_t from = asked == 0 ? 1 : asked;
  const std::size_t most = std::max<std::size_t>(1, std::min(kMostAxes, dated.years.size() / kDatedPerAxis));
  const std::size_t to = asked == 0 ? std::min(available, most) : asked;
  for (std::size_t axes = from; axes <= to && axes + 2 < dated.years.size(); ++axes) {
    auto regression = fit(dated, axes);
    if (!regression) break;
    const double squares = left_out_squares(*regression, dated, axes);
    if (!best || squares < best->squares) best = Chosen{std::move(*regression), axes, squares};
  }
  return best;
}

double predicted(const Regression& regression, std::span<const double> row) {
  double year = 0;
  for (std::size_t k = 0; k < row.size(); ++k) year += regression.coefficients[k] * row[k];
  return year;
}

AxisDate date_of(const Point& point, const Chosen& chosen, double limit) {
  const std::vector<double> row = design_row(point, chosen.axes);
  AxisDate date{.label = point.label, .given = {}, .year = predicted(chosen.regression, row), .left_out = {}};
  const double half = limit * std::sqrt(chosen.regression.variance() * (1 + chosen.regression.leverage(row)));
  date.low95 = date.year - half;
  date.high95 = date.year + half;
  return date;
}

/// Is the year of the i-th within the interval that the others predict for it?
bool within(const Chosen& chosen, const Dated& dated, std::size_t i) {
  const auto df = static_cast<double>(chosen.regression.df);
  if (df < 2) return false;
  const double leverage = std::min(chosen.regression.leverage(design_row(*dated.points[i], chosen.axes)), 1 - 1e-9);
  const double residual = dated.years[i] - chosen.regression.fitted[i];
  const double variance = (chosen.regression.residual_ss - residual * residual / (1 - leverage)) / (df - 1);
  const double error = std::abs(residual) / (1 - leverage);
  return error <= statistics::student_limit(0.05, df - 1) * std::sqrt(std::max(0.0, variance) / (1 - leverage));
}

}  // namespace

Result<AxisDates> dates_on_axes(const Ordination& ordination, std::span<const std::optional<double>> years,
                                const AxisDateSettings& settings) {
  Dated dated;
  for (std::size_t i = 0; i < years.size() && i < ordination.rows.size(); ++i) {
    if (!years[i]) continue;
    dated.points.push_back(&ordination.rows[i]);
    dated.years.push_back(*years[i]);
  }
  const std::size_t available = ordination.rows.empty() ? 0 : ordination.rows.front().principal.size();
  if (dated.years.size() < settings.axes + 3 || dated.years.size() < 4 ||
      available < std::max<std::size_t>(1, settings.axes)) {
    return fail("too_few_dated",
                fmt::format("{} dated rows on {} axes are too few to date others by", dated.years.size(), available),
                "at least 4 rows with a year are needed, and 3 more than axes");
  }
  const auto chosen = choose(dated, settings.axes, available);
  if (!chosen) return fail("no_fit", "the dated rows do not lie apart on the axes", "ask for fewer axes");
  const auto n = static_cast<double>(dated.years.size());
  double mean = statistics::sum_of(dated.years) / n;
  double spread = 0;
  for (const double year : dated.years) spread += (year - mean) * (year - mean);
  AxisDates out;
  out.axes = static_cast<std::int64_t>(chosen->axes);
  out.dated = static_cast<std::int64_t>(dated.years.size());
  out.coefficients = chosen->regression.coefficients;
  out.r_square = spread > 0 ? 1 - chosen->regression.residual_ss / spread : 0.0;
  out.residual_sd = std::sqrt(chosen->regression.variance());
  out.left_out_sd = std::sqrt(chosen->squares / n);
  const double limit = statistics::student_limit(0.05, static_cast<double>(chosen->regression.df));
  std::size_t at = 0;
  for (std::size_t i = 0; i < ordination.rows.size(); ++i) {
    AxisDate date = date_of(ordination.rows[i], *chosen, limit);
    if (i < years.size() && years[i]) {
      date.given = years[i];
      date.left_out = left_out(chosen->regression, dated, at, chosen->axes);
      out.within95 += within(*chosen, dated, at) ? 1 / n : 0.0;
      ++at;
    }
    out.rows.push_back(std::move(date));
  }
  for (const Point& column : ordination.columns) out.columns.push_back(date_of(column, *chosen, limit));
  out.note = fmt::format(
      "Left out one at a time, the dated rows are missed by {:.0f} years (root mean square). The interval holds the "
      "scatter about the line only: not errors of the given years, nor an undated row of another kind than the dated.",
      out.left_out_sd);
  return out;
}

}  // namespace sherd::compare
