#include "methods/statistics/decompose.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numeric>

namespace sherd::statistics {

namespace {

using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
constexpr double kNoise = 1e-13;

Eigen::Map<const RowMajor> view(const Matrix& matrix) {
  return {matrix.values.data(), static_cast<Eigen::Index>(matrix.rows), static_cast<Eigen::Index>(matrix.columns)};
}

Matrix matrix_of(const RowMajor& from) {
  Matrix out(static_cast<std::size_t>(from.rows()), static_cast<std::size_t>(from.cols()));
  std::copy(from.data(), from.data() + from.size(), out.values.begin());
  return out;
}

}  // namespace

std::vector<double> row_sums(const Matrix& matrix) {
  std::vector<double> sums(matrix.rows, 0.0);
  for (std::size_t i = 0; i < matrix.rows; ++i) sums[i] = sum_of(matrix.row(i));
  return sums;
}

std::vector<double> column_sums(const Matrix& matrix) {
  std::vector<double> sums(matrix.columns, 0.0);
  for (std::size_t i = 0; i < matrix.rows; ++i) {
    for (std::size_t j = 0; j < matrix.columns; ++j) sums[j] += matrix(i, j);
  }
  return sums;
}

double sum_of(std::span<const double> values) { return std::accumulate(values.begin(), values.end(), 0.0); }

EigenSystem symmetric_eigen(const Matrix& symmetric) {
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(Eigen::MatrixXd(view(symmetric)));
  EigenSystem out;
  const Eigen::VectorXd values = solver.eigenvalues().reverse();
  out.values.assign(values.data(), values.data() + values.size());
  out.vectors = matrix_of(solver.eigenvectors().rowwise().reverse());
  return out;
}

Matrix product(const Matrix& left, const Matrix& right) {
  RowMajor out(static_cast<Eigen::Index>(left.rows), static_cast<Eigen::Index>(right.columns));
  out.noalias() = view(left) * view(right);
  return matrix_of(out);
}

Matrix cross_product(const Matrix& matrix) {
  const auto m = view(matrix);
  RowMajor out = RowMajor::Zero(m.cols(), m.cols());
  out.selfadjointView<Eigen::Lower>().rankUpdate(m.transpose());
  out.triangularView<Eigen::StrictlyUpper>() = out.transpose();
  return matrix_of(out);
}

Singular singular_values(const Matrix& matrix, std::size_t most) {
  const auto m = view(matrix);
  const bool wide = matrix.columns > matrix.rows;
  const Eigen::MatrixXd product = wide ? Eigen::MatrixXd(m * m.transpose()) : Eigen::MatrixXd(m.transpose() * m);
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(product);
  const Eigen::VectorXd squares = solver.eigenvalues().reverse();
  const double least = squares.size() == 0 ? 0.0 : squares(0) * kNoise;
  Eigen::Index kept = 0;
  const auto limit = std::min(squares.size(), static_cast<Eigen::Index>(std::min(most, matrix.rows * matrix.columns)));
  while (kept < limit && squares(kept) > least && squares(kept) > 0) ++kept;
  const Eigen::MatrixXd vectors = solver.eigenvectors().rowwise().reverse().leftCols(kept);
  const Eigen::VectorXd values = squares.head(kept).cwiseSqrt();
  const Eigen::MatrixXd scaled = vectors * values.cwiseInverse().asDiagonal();
  Singular out;
  out.values.assign(values.data(), values.data() + values.size());
  out.left = matrix_of(wide ? RowMajor(vectors) : RowMajor(m * scaled));
  out.right = matrix_of(wide ? RowMajor(m.transpose() * scaled) : RowMajor(vectors));
  return out;
}

double Regression::leverage(std::span<const double> x) const {
  double sum = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    for (std::size_t j = 0; j < x.size(); ++j) sum += x[i] * inverse(i, j) * x[j];
  }
  return sum;
}

std::optional<Regression> least_squares(const Matrix& x, std::span<const double> y) {
  if (x.columns == 0 || x.columns > x.rows || y.size() != x.rows) return std::nullopt;
  const Eigen::MatrixXd design = view(x);
  const Eigen::Map<const Eigen::VectorXd> right(y.data(), static_cast<Eigen::Index>(y.size()));
  const Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(design);
  if (qr.rank() < design.cols()) return std::nullopt;
  const Eigen::VectorXd b = qr.solve(right);
  const Eigen::VectorXd fitted = design * b;
  const Eigen::Index n = design.cols();
  const Eigen::MatrixXd triangle = qr.matrixR().topLeftCorner(n, n).triangularView<Eigen::Upper>();
  const Eigen::MatrixXd inverse =
      triangle.triangularView<Eigen::Upper>().solve(Eigen::MatrixXd(Eigen::MatrixXd::Identity(n, n)));
  const Eigen::MatrixXd permuted = qr.colsPermutation() * inverse;
  Regression out;
  out.coefficients.assign(b.data(), b.data() + b.size());
  out.inverse = matrix_of(RowMajor(permuted * permuted.transpose()));
  out.fitted.assign(fitted.data(), fitted.data() + fitted.size());
  out.residual_ss = (right - fitted).squaredNorm();
  out.df = x.rows - x.columns;
  return out;
}

std::size_t rank_of(const Matrix& matrix) {
  if (matrix.values.empty()) return 0;
  return static_cast<std::size_t>(Eigen::ColPivHouseholderQR<Eigen::MatrixXd>(Eigen::MatrixXd(view(matrix))).rank());
}

}  // namespace sherd::statistics
