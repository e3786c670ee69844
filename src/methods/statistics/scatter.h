#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "methods/statistics/matrix.h"

namespace sherd::statistics {

/// Of the columns; the rows in `which`, or all where it is empty. At least one row.
std::vector<double> column_means(const Matrix& points, std::span<const std::size_t> which = {});

/// Sums of squares and products of those rows about `mean`. A column whose values differ by no more than rounding
/// (1e-13 of its mean) is taken not to vary: 0.
Matrix scatter(const Matrix& points, std::span<const double> mean, std::span<const std::size_t> which = {});

/// The triangle L of a symmetric matrix A = L L'.
class Cholesky {
 public:
  /// Nothing where A is not positive definite, to 1e-11 of each diagonal element: its columns depend on one another.
  static std::optional<Cholesky> of(const Matrix& symmetric);
  /// The first column of A that depends on those before it (or does not vary); nothing where A is positive definite.
  static std::optional<std::size_t> dependent_column(const Matrix& symmetric);

  std::size_t size() const { return upper_.rows; }
  /// v' A^-1 v; `work` is scratch room that is given its size here.
  double squared_length(std::span<const double> v, std::vector<double>& work) const;
  /// (row - mean)' A^-1 (row - mean) of every row; many at once, so much the faster.
  std::vector<double> squared_lengths(const Matrix& points, std::span<const double> mean) const;
  /// L^-1 v
  std::vector<double> forward(std::span<const double> v) const;
  /// L'^-1 v
  std::vector<double> backward(std::span<const double> v) const;
  double log_determinant() const;

 private:
  explicit Cholesky(Matrix lower);
  void forward_into(std::span<const double> v, std::vector<double>& out) const;

  Matrix upper_;  ///< L', so that a column of L lies in one piece
  std::vector<double> inverse_diagonal_;
};

}  // namespace sherd::statistics
