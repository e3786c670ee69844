#include "methods/statistics/clustering.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "methods/statistics/clustering_parts.h"

namespace sherd::statistics {

namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();

double squared(double x) { return x * x; }

/// The distance of the union of x and y to k.
double updated(Linkage linkage, double xk, double yk, double xy, double nx, double ny, double nk) {
  switch (linkage) {
    case Linkage::single:
      return std::min(xk, yk);
    case Linkage::complete:
      return std::max(xk, yk);
    case Linkage::average:
      return (nx * xk + ny * yk) / (nx + ny);
    case Linkage::ward:
    case Linkage::ward_unsquared:
      return ((nx + nk) * xk + (ny + nk) * yk - nk * xy) / (nx + ny + nk);
  }
  return xk;
}

/// Joins nearest neighbours; a union keeps the place of its later part.
class Chain {
 public:
  Chain(Distances& distances, Linkage linkage)
      : distances_(distances), linkage_(linkage), sizes_(distances.size(), 1), alive_(distances.size()) {
    std::iota(alive_.begin(), alive_.end(), std::size_t{0});
  }

  std::vector<MergeStep> run() {
    std::vector<MergeStep> steps;
    std::vector<std::size_t> chain;
    while (alive_.size() > 1) {
      if (chain.empty()) chain.push_back(alive_.front());
      const std::size_t here = chain.back();
      const bool back = chain.size() > 1;
      const auto [nearest, distance] = nearest_to(here, back ? chain[chain.size() - 2] : here);
      if (!back || nearest != chain[chain.size() - 2]) {
        chain.push_back(nearest);
        continue;
      }
      chain.resize(chain.size() - 2);
      steps.push_back({std::min(here, nearest), std::max(here, nearest), distance, 0});
      join(steps.back().a, steps.back().b, distance);
    }
    return steps;
  }

 private:
  /// On ties the one that the chain came from.
  std::pair<std::size_t, double> nearest_to(std::size_t here, std::size_t before) const {
    std::size_t nearest = before;
    double distance = before == here ? kFar : distances_(here, before);
    for (const std::size_t other : alive_) {
      if (other == here) continue;
      const double d = distances_(here, other);
      if (d < distance || nearest == here) {
        distance = d;
        nearest = other;
      }
    }
    return {nearest, distance};
  }

  void join(std::size_t gone, std::size_t kept, double between) {
    const auto nx = static_cast<double>(sizes_[gone]);
    const auto ny = static_cast<double>(sizes_[kept]);
    alive_.erase(std::lower_bound(alive_.begin(), alive_.end(), gone));
    for (const std::size_t other : alive_) {
      if (other == kept) continue;
      double& to = distances_.at(kept, other);
      to = updated(linkage_, distances_(gone, other), to, between, nx, ny, static_cast<double>(sizes_[other]));
    }
    sizes_[kept] += sizes_[gone];
  }

  Distances& distances_;
  Linkage linkage_;
  std::vector<std::size_t> sizes_;
  std::vector<std::size_t> alive_;  ///< ascending
};

/// Sets that only grow.
class Sets {
 public:
  explicit Sets(std::size_t n) : parent_(n), named_(n), size_(n, 1) {
    std::iota(parent_.begin(), parent_.end(), std::size_t{0});
    named_ = parent_;
  }
  std::size_t root(std::size_t x) {
    while (parent_[x] != x) x = parent_[x] = parent_[parent_[x]];
    return x;
  }
  /// The name and the size of the set of x.
  std::size_t name(std::size_t x) { return named_[root(x)]; }
  std::size_t unite(std::size_t x, std::size_t y, std::size_t name) {
    const std::size_t a = root(x);
    const std::size_t b = root(y);
    parent_[a] = b;
    size_[b] += size_[a];
    named_[b] = name;
    return size_[b];
  }

 private:
  std::vector<std::size_t> parent_, named_, size_;
};

/// The members of every node of a tree of `n` things.
std::vector<std::vector<std::size_t>> members_of(std::span<const MergeStep> steps, std::size_t n, std::size_t upto) {
  std::vector<std::vector<std::size_t>> members(n + upto);
  for (std::size_t i = 0; i < n; ++i) members[i] = {i};
  for (std::size_t s = 0; s < upto; ++s) {
    members[n + s] = std::move(members[steps[s].a]);
    const auto& other = members[steps[s].b];
    members[n + s].insert(members[n + s].end(), other.begin(), other.end());
    members[steps[s].a].clear();
    members[steps[s].b].clear();
  }
  return members;
}

double pairs(double n) { return n * (n - 1) / 2; }

}  // namespace

Distances euclidean_distances(const Matrix& points) {
  Distances out(points.rows);
  auto next = out.values().begin();
  for (std::size_t a = 0; a < points.rows; ++a) {
    for (std::size_t b = a + 1; b < points.rows; ++b)
      *next++ = std::sqrt(squared_between(points.row(a), points.row(b)));
  }
  return out;
}

std::vector<MergeStep> merge_steps(Distances distances, Linkage linkage) {
  const std::size_t n = distances.size();
  if (linkage == Linkage::ward) {
    for (double& d : distances.values()) d *= d;
  }
  std::vector<MergeStep> steps = Chain(distances, linkage).run();
  std::stable_sort(steps.begin(), steps.end(),
                   [](const MergeStep& a, const MergeStep& b) { return a.height < b.height; });
  Sets sets(n);
  for (std::size_t s = 0; s < steps.size(); ++s) {
    MergeStep& step = steps[s];
    const std::size_t x = sets.name(step.a);
    const std::size_t y = sets.name(step.b);
    step.size = sets.unite(step.a, step.b, n + s);
    step.a = std::min(x, y);
    step.b = std::max(x, y);
    if (linkage == Linkage::ward) step.height = std::sqrt(std::max(0.0, step.height));
  }
  return steps;
}

std::vector<std::size_t> cut_steps(std::span<const MergeStep> steps, std::size_t groups) {
  const std::size_t n = steps.size() + 1;
  const auto members = members_of(steps, n, n - groups);
  std::vector<std::size_t> out(n, 0);
  for (std::size_t node = 0; node < members.size(); ++node) {
    for (const std::size_t i : members[node]) out[i] = node;
  }
  return numbered_by_first(std::move(out));
}

Distances cophenetic_distances(std::span<const MergeStep> steps) {
  const std::size_t n = steps.size() + 1;
  Distances out(n);
  std::vector<std::vector<std::size_t>> members(n + steps.size());
  for (std::size_t i = 0; i < n; ++i) members[i] = {i};
  for (std::size_t s = 0; s < steps.size(); ++s) {
    for (const std::size_t a : members[steps[s].a]) {
      for (const std::size_t b : members[steps[s].b]) out.at(a, b) = steps[s].height;
    }
    members[n + s] = std::move(members[steps[s].a]);
    const auto& other = members[steps[s].b];
    members[n + s].insert(members[n + s].end(), other.begin(), other.end());
  }
  return out;
}

std::optional<double> correlation(std::span<const double> a, std::span<const double> b) {
  const auto n = static_cast<double>(a.size());
  const double mean_a = sum_of(a) / n;
  const double mean_b = sum_of(b) / n;
  double aa = 0;
  double bb = 0;
  double ab = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    aa += squared(a[i] - mean_a);
    bb += squared(b[i] - mean_b);
    ab += (a[i] - mean_a) * (b[i] - mean_b);
  }
  if (!(aa > 0) || !(bb > 0)) return std::nullopt;
  return ab / std::sqrt(aa * bb);
}

std::vector<double> silhouettes(const Distances& distances, std::span<const std::size_t> groups) {
  const std::size_t count = groups.empty() ? 0 : *std::max_element(groups.begin(), groups.end()) + 1;
  std::vector<double> sizes(count, 0.0);
  for (const std::size_t group : groups) ++sizes[group];
  std::vector<double> out(groups.size(), 0.0);
  std::vector<double> sums(count);
  for (std::size_t i = 0; i < groups.size(); ++i) {
    if (sizes[groups[i]] < 2) continue;
    std::fill(sums.begin(), sums.end(), 0.0);
    for (std::size_t j = 0; j < groups.size(); ++j) {
      if (j != i) sums[groups[j]] += distances(i, j);
    }
    const double own = sums[groups[i]] / (sizes[groups[i]] - 1);
    double other = kFar;
    for (std::size_t g = 0; g < count; ++g) {
      if (g != groups[i] && sizes[g] > 0) other = std::min(other, sums[g] / sizes[g]);
    }
    const double greater = std::max(own, other);
    if (std::isfinite(other) && greater > 0) out[i] = (other - own) / greater;
  }
  return out;
}

std::optional<double> adjusted_rand(std::span<const std::size_t> a, std::span<const std::size_t> b) {
  if (a.empty() || a.size() != b.size()) return std::nullopt;
  Matrix table(*std::max_element(a.begin(), a.end()) + 1, *std::max_element(b.begin(), b.end()) + 1);
  for (std::size_t i = 0; i < a.size(); ++i) ++table(a[i], b[i]);
  const auto sum = [](std::span<const double> values) {
    double total = 0;
    for (const double value : values) total += pairs(value);
    return total;
  };
  const double both = sum(table.values);
  const double of_a = sum(row_sums(table));
  const double of_b = sum(column_sums(table));
  const double expected = of_a * of_b / std::max(1.0, pairs(static_cast<double>(a.size())));
  const double most = (of_a + of_b) / 2;
  if (!(std::abs(most - expected) > 0)) return std::nullopt;
  return (both - expected) / (most - expected);
}

}  // namespace sherd::statistics
