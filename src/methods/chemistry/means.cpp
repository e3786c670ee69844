#include "methods/chemistry/means.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "methods/chemistry/membership.h"
#include "methods/chemistry/selection.h"
#include "methods/statistics/decompose.h"
#include "methods/statistics/distributions.h"

namespace sherd::chemistry {

namespace {

using statistics::Matrix;

/// Numbers that the approximations are made of: p variables, q degrees of freedom between groups, v within.
struct Size {
  double p, q, v;
  double s() const { return std::min(p, q); }
  double m() const { return (std::abs(p - q) - 1) / 2; }
  double rest() const { return (v - p - 1) / 2; }
};
Size size_of(const Split& split) {
  return {static_cast<double>(split.within.rows), static_cast<double>(split.groups.size() - 1),
          static_cast<double>(split.error_df())};
}

MeansTest tested(double value, double f, double df1, double df2) {
  return {value, f, df1, df2, statistics::f_upper(f, df1, df2)};
}

MeansTest hotelling_lawley_of(const Split& split, const Canonical& axes) {
  const Size size = size_of(split);
  const double value = statistics::sum_of(axes.eigenvalues);
  const double first = 2 * size.m() + size.s() + 1;
  const double second = 2 * (size.s() * size.rest() + 1);
  return tested(value, second * value / (size.s() * size.s() * first), size.s() * first, second);
}

MeansTest roy_of(const Split& split, const Canonical& axes) {
  const Size size = size_of(split);
  const double first = std::max(size.p, size.q);
  const double second = size.v - first + size.q;
  const double value = axes.eigenvalues.front();
  return tested(value, second * value / first, first, second);
}

OneVariable alone(const Split& split, const Prepared& samples, std::size_t j) {
  const Size size = size_of(split);
  OneVariable out{.variable = samples.about.variables[j], .df1 = size.q, .df2 = size.v};
  out.f = split.between(j, j) / size.q / (split.within(j, j) / size.v);
  out.p = statistics::f_upper(out.f, out.df1, out.df2);
  out.within_sd = std::sqrt(split.within(j, j) / size.v);
  return out;
}

Result<statistics::Cholesky> factor_of(const Prepared& samples, const Matrix& within) {
  if (auto factor = statistics::Cholesky::of(within)) return std::move(*factor);
  const std::size_t column = *statistics::Cholesky::dependent_column(within);
  const std::string& name = samples.about.variables[column];
  return fail("singular_covariance", name + " does not vary within the groups, or follows from the variables before it",
              samples.about.transform == "clr"
                  ? "clr of all parts adds up to 0: use --transform ilr, in which distances are the same"
                  : "leave " + name +
                        " out, use --transform ilr where parts add up to a fixed sum, or components "
                        "(--components)");
}

void add(Matrix& to, const Matrix& from) {
  for (std::size_t k = 0; k < to.values.size(); ++k) to.values[k] += from.values[k];
}

}  // namespace

Result<Split> split_by_groups(const Prepared& samples, std::size_t spare) {
  std::vector<GroupRows> groups;
  std::vector<std::size_t> all;
  std::vector<bool> in(samples.ids.size(), false);
  for (GroupRows& group : groups_of(samples.groups)) {
    if (group.rows.size() < 2) continue;
    for (const std::size_t row : group.rows) in[row] = true;
    groups.push_back(std::move(group));
  }
  std::vector<std::string> aside;
  for (std::size_t row = 0; row < in.size(); ++row) {
    if (in[row]) {
      all.push_back(row);
    } else {
      aside.push_back(samples.ids[row]);
    }
  }
  const std::size_t p = samples.values.columns;
  if (groups.size() < 2) {
    return fail("too_few_groups",
                "two groups of two samples and more are needed; there " +
                    std::string(groups.empty() ? "is none" : "is one, \"" + groups[0].name + "\""),
                "name the column of groups: --by COLUMN");
  }
  if (all.size() < groups.size() + p + spare) {
    return fail("groups_too_small",
                fmt::format("{} samples in {} groups are too few for {}", all.size(), groups.size(),
                            counted(static_cast<long long>(p), "variable")),
                all.size() > groups.size() + spare + 1
                    ? fmt::format("use {} at most (--analytes), or that many components (--components)",
                                  counted(static_cast<long long>(all.size() - groups.size() - spare), "element"))
                    : "measure more samples of each group");
  }
  Matrix within(p, p);
  std::vector<std::vector<double>> means;
  for (const GroupRows& group : groups) {
    means.push_back(statistics::column_means(samples.values, group.rows));
    add(within, statistics::scatter(samples.values, means.back(), group.rows));
  }
  std::vector<double> mean = statistics::column_means(samples.values, all);
  Matrix between = statistics::scatter(samples.values, mean, all);
  for (std::size_t k = 0; k < between.values.size(); ++k) between.values[k] -= within.values[k];
  SHERD_TRY(statistics::Cholesky factor, factor_of(samples, within));
  return Split{std::move(groups), std::move(aside),   std::move(means),  std::move(mean),
               std::move(within), std::move(between), std::move(factor), all.size()};
}

Canonical canonical_axes(const Split& split) {
  // With E = L L': eigenvalues of L^-1 H L'^-1.
  const std::size_t p = split.within.rows;
  Matrix half(p, p);  // columns of H brought forward, kept as rows
  for (std::size_t j = 0; j < p; ++j)
    std::ranges::copy(split.factor.forward(split.between.row(j)),
                      half.values.begin() + static_cast<std::ptrdiff_t>(j * p));
  Matrix middle(p, p);
  for (std::size_t i = 0; i < p; ++i) {
    std::vector<double> column(p);
    for (std::size_t j = 0; j < p; ++j) column[j] = half(j, i);
    std::ranges::copy(split.factor.forward(column), middle.values.begin() + static_cast<std::ptrdiff_t>(i * p));
  }
  for (std::size_t i = 0; i < p; ++i) {
    for (std::size_t j = 0; j < i; ++j) middle(i, j) = middle(j, i) = (middle(i, j) + middle(j, i)) / 2;
  }
  const statistics::EigenSystem eigen = statistics::symmetric_eigen(middle);
  const std::size_t kept = std::min(p, split.groups.size() - 1);
  Canonical out{.eigenvalues = {}, .vectors = Matrix(p, kept)};
  for (std::size_t k = 0; k < kept; ++k) {
    out.eigenvalues.push_back(std::max(0.0, eigen.values[k]));
    std::vector<double> vector(p);
    for (std::size_t j = 0; j < p; ++j) vector[j] = eigen.vectors(j, k);
    vector = split.factor.backward(vector);
    double greatest = 0;
    for (std::size_t j = 0; j < p; ++j) {
      const double in_sd = vector[j] * std::sqrt(split.within(j, j));
      if (std::abs(in_sd) > std::abs(greatest) + 1e-12) greatest = in_sd;
    }
    for (std::size_t j = 0; j < p; ++j) out.vectors(j, k) = greatest < 0 ? -vector[j] : vector[j];
  }
  return out;
}

MeansTest pillai_of(const Split& split, const Canonical& axes) {
  const Size size = size_of(split);
  double value = 0;
  for (const double x : axes.eigenvalues) value += x / (1 + x);
  const double first = 2 * size.m() + size.s() + 1;
  const double second = 2 * size.rest() + size.s() + 1;
  return tested(value, second / first * value / (size.s() - value), size.s() * first, size.s() * second);
}

MeansTest wilks_of(const Split& split, const Canonical& axes) {
  const Size size = size_of(split);
  double value = 1;
  for (const double x : axes.eigenvalues) value /= 1 + x;
  const double product = size.p * size.q;
  const double first = size.v - (size.p - size.q + 1) / 2;
  const double second = (product - 2) / 4;
  const double below = size.p * size.p + size.q * size.q - 5;
  const double power = below > 0 ? std::sqrt((product * product - 4) / below) : 1;
  const double df2 = first * power - 2 * second;
  return tested(value, (std::pow(value, -1 / power) - 1) * df2 / product, product, df2);
}

Result<Manova> manova(const Prepared& samples) {
  SHERD_TRY(const Split split, split_by_groups(samples, 1));
  const Canonical axes = canonical_axes(split);
  Manova out{.variables = samples.about.variables,
             .means = split.means,
             .eigenvalues = axes.eigenvalues,
             .pillai = pillai_of(split, axes),
             .wilks = wilks_of(split, axes),
             .hotelling_lawley = hotelling_lawley_of(split, axes),
             .roy = roy_of(split, axes)};
  for (const GroupRows& group : split.groups) {
    out.labels.push_back(group.name);
    out.n.push_back(static_cast<std::int64_t>(group.rows.size()));
  }
  for (std::size_t j = 0; j < samples.values.columns; ++j) out.univariate.push_back(alone(split, samples, j));
  out.notes.emplace_back(
      "A small p says that the means differ, not which groups nor by how much; Roy's is a lower bound of p. Groups are "
      "taken to scatter alike.");
  if (!split.left_aside.empty())
    out.notes.push_back("Without a group, or alone in it, and left aside: " + listed(split.left_aside) + ".");
  return out;
}

}  // namespace sherd::chemistry
