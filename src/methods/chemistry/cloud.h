#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "methods/statistics/distributions.h"
#include "methods/statistics/scatter.h"

namespace sherd::chemistry {

/// How far a sample lies from a group that it has no part in.
struct Distance {
  double distance2 = 0, t2 = 0, f = 0, probability = 1;
};

/// A group as a cloud of normal scatter: its mean and covariance (n - 1).
class Cloud {
 public:
  /// A group needs so many members for `variables`, so that each of them can be left out.
  static std::size_t needed(std::size_t variables) { return variables + 3; }
  /// Nothing where there are too few rows or the covariance is singular: see `statistics::Cholesky`.
  static std::optional<Cloud> of(const statistics::Matrix& values, std::span<const std::size_t> rows);

  std::size_t n() const { return n_; }
  std::size_t p() const { return mean_.size(); }
  const std::vector<double>& mean() const { return mean_; }

  /// D2 = (y - m)' S^-1 (y - m)
  double distance2(std::span<const double> sample);
  /// Of every row.
  std::vector<double> distances2(const statistics::Matrix& samples) const;
  /// Of a sample that is no member: T2 = n D2 / (n + 1), F = (n - p) T2 / (p (n - 1)) with p and n - p degrees of
  /// freedom (J. C. Davis, Statistics and Data Analysis in Geology, eq. 6.30-6.31, with the variance of one new
  /// sample).
  Distance outside(double distance2) const;
  /// Of a member whose D2 in the group is given: mean and covariance of the others, by the closed form
  /// D2 (n - 2) n^2 / ((n - 1) ((n - 1)^2 - n D2)).
  Distance left_out(double distance2) const;

 private:
  Cloud(std::size_t n, std::vector<double> mean, statistics::Cholesky factor);

  std::size_t n_;
  std::vector<double> mean_;
  statistics::Cholesky factor_;  ///< of the sums of squares and products
  statistics::FTail outside_tail_, left_out_tail_;
  std::vector<double> off_, work_;
};

}  // namespace sherd::chemistry
