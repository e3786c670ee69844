#include <algorithm>
#include <limits>

#include "methods/statistics/clustering.h"
#include "methods/statistics/clustering_parts.h"

namespace sherd::statistics {

namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();

/// One run of k-means.
class Means {
 public:
  Means(const Matrix& points, std::size_t k, Random& random) : points_(points), centres_(k, points.columns) {
    place_centres(random);
    run();
  }
  Means(const Matrix& points, std::span<const std::size_t> first)
      : points_(points), centres_(first.size(), points.columns) {
    for (std::size_t c = 0; c < first.size(); ++c) set_centre(c, first[c]);
    run();
  }
  const std::vector<std::size_t>& groups() const { return groups_; }
  double within() const {
    double sum = 0;
    for (std::size_t i = 0; i < points_.rows; ++i) sum += squared_between(points_.row(i), centres_.row(groups_[i]));
    return sum;
  }

 private:
  void run() {
    groups_.assign(points_.rows, 0);
    while (assign()) move();
  }
  void set_centre(std::size_t c, std::size_t point) {
    std::copy_n(points_.row(point).begin(), points_.columns, centres_.values.begin() + offset(c));
  }
  std::ptrdiff_t offset(std::size_t c) const { return static_cast<std::ptrdiff_t>(c * centres_.columns); }

  /// Each next centre is a point drawn in proportion to its squared distance from the nearest one so far.
  void place_centres(Random& random) {
    const std::size_t n = points_.rows;
    set_centre(0, random.below(static_cast<std::uint32_t>(n)));
    std::vector<double> nearest(n, kFar);
    for (std::size_t c = 1; c < centres_.rows; ++c) {
      double sum = 0;
      for (std::size_t i = 0; i < n; ++i) {
        nearest[i] = std::min(nearest[i], squared_between(points_.row(i), centres_.row(c - 1)));
        sum += nearest[i];
      }
      double u = random.uniform() * sum;
      std::size_t chosen = 0;
      for (std::size_t i = 0; i < n; ++i) {
        if (nearest[i] <= 0) continue;
        chosen = i;
        u -= nearest[i];
        if (u < 0) break;
      }
      set_centre(c, chosen);
    }
  }

  bool assign() {
    bool changed = first_;
    first_ = false;
    for (std::size_t i = 0; i < points_.rows; ++i) {
      std::size_t best = groups_[i];
      double least = squared_between(points_.row(i), centres_.row(best));
      for (std::size_t c = 0; c < centres_.rows; ++c) {
        const double d = squared_between(points_.row(i), centres_.row(c));
        if (d < least) {
          least = d;
          best = c;
        }
      }
      changed = changed || best != groups_[i];
      groups_[i] = best;
    }
    return changed;
  }

  void move() {
    std::vector<double> sizes(centres_.rows, 0.0);
    Matrix sums(centres_.rows, centres_.columns);
    for (std::size_t i = 0; i < points_.rows; ++i) {
      ++sizes[groups_[i]];
      for (std::size_t j = 0; j < points_.columns; ++j) sums(groups_[i], j) += points_(i, j);
    }
    for (std::size_t c = 0; c < centres_.rows; ++c) {
      if (sizes[c] <= 0) continue;  // an empty group keeps its centre
      for (std::size_t j = 0; j < centres_.columns; ++j) centres_(c, j) = sums(c, j) / sizes[c];
    }
  }

  const Matrix& points_;
  Matrix centres_;
  std::vector<std::size_t> groups_;
  bool first_ = true;
};

}  // namespace

double squared_between(std::span<const double> a, std::span<const double> b) {
  double sum = 0;
  for (std::size_t k = 0; k < a.size(); ++k) sum += (a[k] - b[k]) * (a[k] - b[k]);
  return sum;
}

std::vector<std::size_t> numbered_by_first(std::vector<std::size_t> groups) {
  std::vector<std::size_t> seen;
  for (std::size_t& group : groups) {
    const auto at = std::find(seen.begin(), seen.end(), group);
    const auto number = static_cast<std::size_t>(at - seen.begin());
    if (at == seen.end()) seen.push_back(group);
    group = number;
  }
  return groups;
}

namespace {

double squares_about_mean(const Matrix& points) {
  Matrix mean(1, points.columns);
  const std::vector<double> sums = column_sums(points);
  for (std::size_t j = 0; j < points.columns; ++j) mean(0, j) = sums[j] / static_cast<double>(points.rows);
  double out = 0;
  for (std::size_t i = 0; i < points.rows; ++i) out += squared_between(points.row(i), mean.row(0));
  return out;
}

}  // namespace

KMeans k_means_from(const Matrix& points, std::span<const std::size_t> first) {
  const Means run(points, first);
  return {numbered_by_first(run.groups()), run.within(), squares_about_mean(points), 1};
}

KMeans k_means(const Matrix& points, std::size_t k, std::size_t starts, std::uint64_t seed) {
  KMeans out;
  out.within = kFar;
  for (std::size_t start = 0; start < starts; ++start) {
    Random random(seed, start);
    const Means run(points, k, random);
    std::vector<std::size_t> groups = numbered_by_first(run.groups());
    if (groups == out.groups) {
      ++out.reached;
    } else if (const double within = run.within(); within < out.within) {
      out.within = within;
      out.groups = std::move(groups);
      out.reached = 1;
    }
  }
  out.total = squares_about_mean(points);
  return out;
}

}  // namespace sherd::statistics
