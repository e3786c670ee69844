#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "methods/statistics/matrix.h"

namespace sherd::statistics {

/// Of a symmetric matrix: eigenvalues from the greatest down, their vectors of length 1 as columns.
struct EigenSystem {
  std::vector<double> values;
  Matrix vectors;
};
EigenSystem symmetric_eigen(const Matrix& symmetric);

/// left right
Matrix product(const Matrix& left, const Matrix& right);
/// matrix' matrix
Matrix cross_product(const Matrix& matrix);

/// matrix = left diag(values) right', from the greatest singular value down.
struct Singular {
  std::vector<double> values;
  Matrix left;   ///< rows x values
  Matrix right;  ///< columns x values
};
/// At most `most` singular values, none whose square is below 1e-13 of the greatest square. By the eigenvalues of the
/// smaller product of the matrix with itself: squares are right to about 1e-15 of the greatest.
Singular singular_values(const Matrix& matrix, std::size_t most);

/// A least-squares fit y = X b + e.
struct Regression {
  std::vector<double> coefficients;
  Matrix inverse;  ///< of X'X
  std::vector<double> fitted;
  double residual_ss = 0;
  std::size_t df = 0;  ///< rows less coefficients
  double variance() const { return df == 0 ? 0.0 : residual_ss / static_cast<double>(df); }
  /// x' (X'X)^-1 x, of a row of X or a new one.
  double leverage(std::span<const double> x) const;
};
/// Nothing where the columns of X depend on one another or outnumber the rows.
std::optional<Regression> least_squares(const Matrix& x, std::span<const double> y);

/// Number of columns that do not depend on others.
std::size_t rank_of(const Matrix& matrix);

}  // namespace sherd::statistics
