#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "base/random.h"
#include "methods/statistics/matrix.h"

namespace sherd::statistics {

/// Distances between n things, each pair once.
class Distances {
 public:
  explicit Distances(std::size_t n) : n_(n), values_(n < 2 ? 0 : n * (n - 1) / 2, 0.0) {}

  std::size_t size() const { return n_; }
  /// `a` and `b` differ.
  double operator()(std::size_t a, std::size_t b) const { return values_[a < b ? place(a, b) : place(b, a)]; }
  double& at(std::size_t a, std::size_t b) { return values_[a < b ? place(a, b) : place(b, a)]; }
  std::span<const double> values() const { return values_; }
  std::span<double> values() { return values_; }

 private:
  std::size_t place(std::size_t a, std::size_t b) const { return a * (2 * n_ - a - 1) / 2 + b - a - 1; }

  std::size_t n_;
  std::vector<double> values_;
};

/// Between the rows.
Distances euclidean_distances(const Matrix& points);

/// `ward` joins the two groups whose union adds least to the sum of squares about group means, worked on squared
/// distances; a height is the square root of the squared distance so updated (for single points the distance itself):
/// the variant called Ward2 by F. Murtagh & P. Legendre 2014, Journal of Classification 31: 274-295. `ward_unsquared`
/// is their Ward1: the same updates worked on distances as they are, which no longer minimise a sum of squares.
enum class Linkage { single, complete, average, ward, ward_unsquared };

/// The step s of n - 1. `a` < `b`: things below n, or n + an earlier step.
struct MergeStep {
  std::size_t a = 0, b = 0;
  double height = 0;
  std::size_t size = 0;
};
/// By chains of nearest neighbours (F. Murtagh 1983, The Computer Journal 26: 354-359), in order of height.
std::vector<MergeStep> merge_steps(Distances distances, Linkage linkage);

/// The groups after all but the last `groups` - 1 steps, numbered from 0 by their first member; 1 <= groups <= n.
std::vector<std::size_t> cut_steps(std::span<const MergeStep> steps, std::size_t groups);

/// The height at which two things come together.
Distances cophenetic_distances(std::span<const MergeStep> steps);
/// Pearson's; nothing where either does not vary.
std::optional<double> correlation(std::span<const double> a, std::span<const double> b);

/// (b - a) / max(a, b), a the mean distance to the others of a thing's own group, b to those of the nearest other one;
/// 0 for a thing alone in its group (P. J. Rousseeuw 1987, Journal of Computational and Applied Mathematics 20: 53-65).
std::vector<double> silhouettes(const Distances& distances, std::span<const std::size_t> groups);

/// Agreement of two partitions, 1 at most, 0 expected by chance (L. Hubert & P. Arabie 1985, Journal of Classification
/// 2: 193-218). Nothing where both are one group, or both all single things.
std::optional<double> adjusted_rand(std::span<const std::size_t> a, std::span<const std::size_t> b);

struct KMeans {
  std::vector<std::size_t> groups;  ///< numbered from 0 by their first member
  double within = 0;                ///< sum of squares about the groups' means
  double total = 0;                 ///< about the mean of all
  std::size_t reached = 0;          ///< starts that ended there
};
/// The best of `starts` runs, each from centres drawn apart from one another (D. Arthur & S. Vassilvitskii 2007), then
/// nearest centre and mean by turns; start s draws from stream s. 1 <= k <= rows.
KMeans k_means(const Matrix& points, std::size_t k, std::size_t starts, std::uint64_t seed);
/// One run from the points `first` (rows, one at least) as centres: where it ends may be no more than a local optimum.
KMeans k_means_from(const Matrix& points, std::span<const std::size_t> first);

}  // namespace sherd::statistics
