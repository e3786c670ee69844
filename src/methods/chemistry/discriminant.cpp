#include "methods/chemistry/discriminant.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "methods/chemistry/means.h"
#include "methods/chemistry/selection.h"

namespace sherd::chemistry {

namespace {

using statistics::Matrix;

/// Squared distances of one sample to all group means, in units of the scatter within groups.
struct Squares {
  std::vector<double> put_back, left_out;
};

class Assigner {
 public:
  Assigner(const Prepared& samples, const Split& split, Priors priors) : samples_(samples), split_(split) {
    const auto count = static_cast<double>(split.groups.size());
    for (const GroupRows& group : split.groups) {
      priors_.push_back(
          priors == Priors::equal ? 1 / count : static_cast<double>(group.rows.size()) / static_cast<double>(split.n));
    }
  }
  const std::vector<double>& priors() const { return priors_; }

  /// With W = E^-1 and c = n_g / (n_g - 1), leaving out a member of g at d from its mean turns W into
  /// W + c W d d' W / (1 - c d' W d), and its distance from the mean of its own group into c d.
  Squares squares(std::size_t row, std::size_t own) {
    const std::size_t groups = split_.groups.size();
    const std::size_t p = samples_.values.columns;
    std::vector<std::vector<double>> off;
    for (std::size_t g = 0; g < groups; ++g) {
      std::vector<double> d(p);
      for (std::size_t j = 0; j < p; ++j) d[j] = samples_.values(row, j) - split_.means[g][j];
      off.push_back(split_.factor.forward(d));
    }
    const double c = count(own) / (count(own) - 1);
    const double df = static_cast<double>(split_.error_df());
    const double own_length = dot(off[own], off[own]);
    const double room = 1 - c * own_length;
    Squares out;
    for (std::size_t g = 0; g < groups; ++g) {
      const double length = dot(off[g], off[g]);
      const double across = dot(off[g], off[own]);
      out.put_back.push_back(df * length);
      const double left = g == own ? c * c * own_length / room : length + c * across * across / room;
      out.left_out.push_back((df - 1) * left);
    }
    return out;
  }

  /// The likeliest group and its posterior.
  std::pair<std::size_t, double> likeliest(const std::vector<double>& squares) const {
    std::size_t best = 0;
    double most = 0;
    std::vector<double> logs;
    for (std::size_t g = 0; g < squares.size(); ++g) {
      logs.push_back(std::log(priors_[g]) - squares[g] / 2);
      if (g == 0 || logs[g] > most) {
        most = logs[g];
        best = g;
      }
    }
    double sum = 0;
    for (const double value : logs) sum += std::exp(value - most);
    return {best, 1 / sum};
  }

 private:
  static double dot(const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0;
    for (std::size_t j = 0; j < a.size(); ++j) sum += a[j] * b[j];
    return sum;
  }
  double count(std::size_t g) const { return static_cast<double>(split_.groups[g].rows.size()); }

  const Prepared& samples_;
  const Split& split_;
  std::vector<double> priors_;
};

/// Scaled to a variance of 1 within groups.
void add_functions(const Split& split, const Canonical& axes, Discriminant& out) {
  const double scale = std::sqrt(static_cast<double>(split.error_df()));
  for (std::size_t j = 0; j < axes.vectors.rows; ++j) {
    std::vector<double> row;
    for (std::size_t k = 0; k < axes.vectors.columns; ++k) row.push_back(scale * axes.vectors(j, k));
    out.coefficients.push_back(std::move(row));
  }
  const double sum = statistics::sum_of(axes.eigenvalues);
  for (const double value : axes.eigenvalues) out.trace_share.push_back(sum > 0 ? value / sum : 0.0);
}

std::vector<double> scores_of(const Prepared& samples, std::size_t row, const Split& split, const Discriminant& out) {
  std::vector<double> scores(out.trace_share.size(), 0.0);
  for (std::size_t j = 0; j < out.coefficients.size(); ++j) {
    for (std::size_t k = 0; k < scores.size(); ++k)
      scores[k] += out.coefficients[j][k] * (samples.values(row, j) - split.mean[j]);
  }
  return scores;
}

void assign_all(const Prepared& samples, const Split& split, Assigner& assigner, Discriminant& out) {
  const std::size_t groups = split.groups.size();
  out.resubstitution.assign(groups, std::vector<std::int64_t>(groups, 0));
  out.left_out = out.resubstitution;
  std::vector<std::pair<std::size_t, Assigned>> found;
  for (std::size_t g = 0; g < groups; ++g) {
    for (const std::size_t row : split.groups[g].rows) {
      const Squares squares = assigner.squares(row, g);
      const std::size_t back = assigner.likeliest(squares.put_back).first;
      const auto [left, posterior] = assigner.likeliest(squares.left_out);
      ++out.resubstitution[g][back];
      ++out.left_out[g][left];
      out.right_resubstituted += back == g ? 1 : 0;
      out.right_left_out += left == g ? 1 : 0;
      found.emplace_back(
          row, Assigned{samples.ids[row], samples.records.empty() ? "" : samples.records[row], split.groups[g].name,
                        split.groups[left].name, posterior, scores_of(samples, row, split, out)});
    }
  }
  std::ranges::sort(found, {}, [](const auto& one) { return one.first; });
  for (auto& [row, one] : found) out.samples.push_back(std::move(one));
}

}  // namespace

Result<Discriminant> discriminant(const Prepared& samples, Priors priors) {
  SHERD_TRY(const Split split, split_by_groups(samples, 2));
  const Canonical axes = canonical_axes(split);
  Assigner assigner(samples, split, priors);
  Discriminant out{.variables = samples.about.variables,
                   .priors = assigner.priors(),
                   .n = static_cast<std::int64_t>(split.n),
                   .pillai = pillai_of(split, axes),
                   .wilks = wilks_of(split, axes),
                   .left_aside = split.left_aside};
  for (const GroupRows& group : split.groups) out.labels.push_back(group.name);
  out.by_chance =
      static_cast<double>(
          std::ranges::max(split.groups, {}, [](const GroupRows& g) { return g.rows.size(); }).rows.size()) /
      static_cast<double>(split.n);
  add_functions(split, axes, out);
  assign_all(samples, split, assigner, out);
  out.notes.push_back(fmt::format(
      "Left out, {} of {} samples go to their own group; put back, {}, which flatters: only the first may be quoted.",
      out.right_left_out, out.n, out.right_resubstituted));
  out.notes.emplace_back(
      "Every sample is sent to one of these groups, also one that comes from none: see membership for whether it "
      "fits.");
  if (!out.left_aside.empty())
    out.notes.push_back("Without a group, or alone in it, and left aside: " + listed(out.left_aside) + ".");
  return out;
}

}  // namespace sherd::chemistry
