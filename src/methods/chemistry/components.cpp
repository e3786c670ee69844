#include "methods/chemistry/components.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "methods/chemistry/groups.h"
#include "methods/statistics/decompose.h"
#include "methods/statistics/scatter.h"

namespace sherd::chemistry {

namespace {

using statistics::Matrix;
constexpr std::size_t kLeastForEllipse = 4;
constexpr double kInside = 0.9;

/// The greatest loading of each component is positive.
void turn(Matrix& vectors) {
  for (std::size_t k = 0; k < vectors.columns; ++k) {
    double greatest = 0;
    for (std::size_t j = 0; j < vectors.rows; ++j) {
      if (std::abs(vectors(j, k)) > std::abs(greatest) + 1e-12) greatest = vectors(j, k);
    }
    if (greatest >= 0) continue;
    for (std::size_t j = 0; j < vectors.rows; ++j) vectors(j, k) = -vectors(j, k);
  }
}

GroupEllipse ellipse_of(const Matrix& scores, const GroupRows& group) {
  const std::vector<double> mean = statistics::column_means(scores, group.rows);
  Matrix plane(group.rows.size(), 2);
  for (std::size_t i = 0; i < group.rows.size(); ++i) {
    for (std::size_t k = 0; k < 2; ++k) plane(i, k) = scores(group.rows[i], k) - mean[k];
  }
  Matrix covariance = statistics::scatter(plane, std::vector<double>{0, 0});
  for (double& value : covariance.values) value /= static_cast<double>(group.rows.size() - 1);
  const statistics::EigenSystem axes = statistics::symmetric_eigen(covariance);
  const double reach = -2 * std::log(1 - kInside);  // chi-square with two degrees of freedom
  double angle = std::atan2(axes.vectors(1, 0), axes.vectors(0, 0)) * 180 / std::numbers::pi;
  if (angle <= -90) angle += 180;
  if (angle > 90) angle -= 180;
  return {.group = group.name,
          .n = static_cast<std::int64_t>(group.rows.size()),
          .centre = {mean[0], mean[1]},
          .major = std::sqrt(std::max(0.0, axes.values[0]) * reach),
          .minor = std::sqrt(std::max(0.0, axes.values[1]) * reach),
          .angle_degrees = angle};
}

Result<void> check(const Prepared& samples, const ComponentSettings& settings) {
  if (settings.shown < 1) return fail(ErrorKind::usage, "bad_axes", "no component is asked for", "ask for 1 or more");
  const std::vector<double> means = statistics::column_means(samples.values);
  bool varies = false;
  for (std::size_t j = 0; j < samples.values.columns; ++j) {
    bool constant = true;
    for (std::size_t i = 1; constant && i < samples.values.rows; ++i)
      constant = samples.values(i, j) == samples.values(0, j);
    varies = varies || !constant;
    if (!constant || !settings.standardise) continue;
    return fail("constant_variable",
                fmt::format("{} is the same in all samples and cannot be standardised", samples.about.variables[j]),
                "leave it out, or do not standardise");
  }
  if (varies) return {};
  return fail("nothing_varies", "all samples are the same", "check that the right columns were read");
}

}  // namespace

Centred centred(const Matrix& values, bool standardise) {
  Centred out{.values = values, .means = statistics::column_means(values), .sds = {}};
  std::vector<double> sums(values.columns, 0.0);
  for (std::size_t i = 0; i < values.rows; ++i) {
    double* const row = &out.values.values[i * values.columns];
    for (std::size_t j = 0; j < values.columns; ++j) {
      row[j] -= out.means[j];
      sums[j] += row[j] * row[j];
    }
  }
  for (const double sum : sums) out.sds.push_back(std::sqrt(sum / static_cast<double>(values.rows - 1)));
  if (!standardise) return out;
  for (std::size_t i = 0; i < values.rows; ++i) {
    double* const row = &out.values.values[i * values.columns];
    for (std::size_t j = 0; j < values.columns; ++j) row[j] /= out.sds[j];
  }
  return out;
}

PrincipalAxes principal_axes(const Matrix& values, bool standardise, std::size_t shown) {
  PrincipalAxes out{.centred = centred(values, standardise), .eigenvalues = {}, .vectors = {}, .scores = {}};
  const Matrix& points = out.centred.values;
  Matrix covariance = statistics::cross_product(points);
  for (double& value : covariance.values) value /= static_cast<double>(points.rows - 1);
  statistics::EigenSystem eigen = statistics::symmetric_eigen(covariance);
  for (const double value : eigen.values) out.eigenvalues.push_back(std::max(0.0, value));
  const std::size_t kept = std::min(shown, points.columns);
  out.vectors = Matrix(points.columns, kept);
  for (std::size_t j = 0; j < points.columns; ++j) {
    for (std::size_t k = 0; k < kept; ++k) out.vectors(j, k) = eigen.vectors(j, k);
  }
  turn(out.vectors);
  out.scores = statistics::product(points, out.vectors);
  return out;
}

Result<Components> components(const Prepared& samples, const ComponentSettings& settings) {
  SHERD_CHECK(check(samples, settings));
  PrincipalAxes axes = principal_axes(samples.values, settings.standardise, settings.shown);
  Components out{.variables = samples.about.variables,
                 .standardised = settings.standardise,
                 .eigenvalues = std::move(axes.eigenvalues),
                 .means = std::move(axes.centred.means),
                 .sds = std::move(axes.centred.sds)};
  const double sum = statistics::sum_of(out.eigenvalues);
  for (const double value : out.eigenvalues) out.shares.push_back(value / sum);
  for (std::size_t j = 0; j < axes.vectors.rows; ++j)
    out.loadings.emplace_back(axes.vectors.row(j).begin(), axes.vectors.row(j).end());
  for (std::size_t i = 0; i < axes.scores.rows; ++i) {
    out.scores.push_back({samples.ids[i],
                          samples.groups[i],
                          samples.records.empty() ? "" : samples.records[i],
                          {axes.scores.row(i).begin(), axes.scores.row(i).end()}});
  }
  if (axes.scores.columns < 2) return out;
  for (const GroupRows& group : groups_of(samples.groups)) {
    if (group.rows.size() >= kLeastForEllipse) out.ellipses.push_back(ellipse_of(axes.scores, group));
  }
  return out;
}

Result<Prepared> on_components(const Prepared& samples, const ComponentSettings& settings) {
  SHERD_CHECK(check(samples, settings));
  PrincipalAxes axes = principal_axes(samples.values, settings.standardise, settings.shown);
  std::size_t varying = 0;
  for (const double value : axes.eigenvalues) varying += value > axes.eigenvalues.front() * 1e-12 ? 1U : 0U;
  varying = std::min(varying, samples.ids.size() - 1);
  if (settings.shown > varying) {
    return fail("bad_axes", fmt::format("{} components are asked for, and {} vary", settings.shown, varying),
                fmt::format("ask for {} at most", varying));
  }
  Prepared out = samples;
  out.values = std::move(axes.scores);
  out.about.variables.clear();
  for (std::size_t k = 1; k <= settings.shown; ++k) out.about.variables.push_back(fmt::format("component {}", k));
  out.about.notes.push_back(
      fmt::format("Worked on the first {} components of all samples: a sample that is left out "
                  "of its group has still had its part in making them.",
                  settings.shown));
  return out;
}

}  // namespace sherd::chemistry
