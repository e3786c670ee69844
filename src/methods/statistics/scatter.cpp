#include "methods/statistics/scatter.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sherd::statistics {

namespace {

constexpr double kDependent = 1e-11;
constexpr double kRounding = 1e-13;

struct Triangle {
  Matrix lower;
  std::optional<std::size_t> dependent;
};

Triangle triangle_of(const Matrix& symmetric) {
  const std::size_t n = symmetric.rows;
  Triangle out{Matrix(n, n), {}};
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = symmetric(i, j);
      for (std::size_t k = 0; k < j; ++k) sum -= out.lower(i, k) * out.lower(j, k);
      if (j < i) {
        out.lower(i, j) = sum / out.lower(j, j);
      } else if (sum > kDependent * symmetric(i, i) && symmetric(i, i) > 0) {
        out.lower(i, i) = std::sqrt(sum);
      } else {
        out.dependent = i;
        return out;
      }
    }
  }
  return out;
}

template <class Visit>
void each_row(const Matrix& points, std::span<const std::size_t> which, Visit visit) {
  if (which.empty()) {
    for (std::size_t i = 0; i < points.rows; ++i) visit(points.row(i));
  } else {
    for (const std::size_t i : which) visit(points.row(i));
  }
}

}  // namespace

std::vector<double> column_means(const Matrix& points, std::span<const std::size_t> which) {
  std::vector<double> out(points.columns, 0.0);
  each_row(points, which, [&](std::span<const double> row) {
    for (std::size_t j = 0; j < row.size(); ++j) out[j] += row[j];
  });
  const auto n = static_cast<double>(which.empty() ? points.rows : which.size());
  for (double& value : out) value /= n;
  return out;
}

Matrix scatter(const Matrix& points, std::span<const double> mean, std::span<const std::size_t> which) {
  const std::size_t p = points.columns;
  Matrix out(p, p);
  std::vector<double> off(p);
  each_row(points, which, [&](std::span<const double> row) {
    for (std::size_t j = 0; j < p; ++j) off[j] = row[j] - mean[j];
    for (std::size_t j = 0; j < p; ++j) {
      double* const into = &out.values[j * p];
      const double by = off[j];
      for (std::size_t k = 0; k <= j; ++k) into[k] += by * off[k];
    }
  });
  const auto n = static_cast<double>(which.empty() ? points.rows : which.size());
  for (std::size_t j = 0; j < p; ++j) {
    for (std::size_t k = j + 1; k < p; ++k) out(j, k) = out(k, j);
  }
  for (std::size_t j = 0; j < p; ++j) {
    const double noise = kRounding * mean[j];
    if (out(j, j) > n * noise * noise) continue;
    for (std::size_t k = 0; k < p; ++k) out(j, k) = out(k, j) = 0;
  }
  return out;
}

std::optional<Cholesky> Cholesky::of(const Matrix& symmetric) {
  Triangle triangle = triangle_of(symmetric);
  if (triangle.dependent) return std::nullopt;
  return Cholesky(std::move(triangle.lower));
}

std::optional<std::size_t> Cholesky::dependent_column(const Matrix& symmetric) {
  return triangle_of(symmetric).dependent;
}

Cholesky::Cholesky(Matrix lower) : upper_(lower.rows, lower.rows), inverse_diagonal_(lower.rows) {
  for (std::size_t i = 0; i < lower.rows; ++i) {
    inverse_diagonal_[i] = 1.0 / lower(i, i);
    for (std::size_t j = 0; j <= i; ++j) upper_(j, i) = lower(i, j);
  }
}

void Cholesky::forward_into(std::span<const double> v, std::vector<double>& out) const {
  const std::size_t n = upper_.rows;
  out.assign(v.begin(), v.end());
  double* const values = out.data();
  for (std::size_t k = 0; k < n; ++k) {
    const double value = values[k] *= inverse_diagonal_[k];
    const double* const column = &upper_.values[k * n];
    for (std::size_t i = k + 1; i < n; ++i) values[i] -= column[i] * value;
  }
}

double Cholesky::squared_length(std::span<const double> v, std::vector<double>& work) const {
  forward_into(v, work);
  double sum = 0;
  for (const double value : work) sum += value * value;
  return sum;
}

std::vector<double> Cholesky::squared_lengths(const Matrix& points, std::span<const double> mean) const {
  constexpr std::size_t kTogether = 8;
  const std::size_t n = upper_.rows;
  std::vector<double> block(n * kTogether);
  std::vector<double> out(points.rows);
  for (std::size_t first = 0; first < points.rows; first += kTogether) {
    const std::size_t count = std::min(kTogether, points.rows - first);
    for (std::size_t s = 0; s < kTogether; ++s) {
      const auto row = points.row(first + std::min(s, count - 1));
      for (std::size_t i = 0; i < n; ++i) block[i * kTogether + s] = row[i] - mean[i];
    }
    std::array<double, kTogether> sums{};
    for (std::size_t i = 0; i < n; ++i) {
      std::array<double, kTogether> here{};
      std::copy_n(&block[i * kTogether], kTogether, here.begin());
      for (std::size_t k = 0; k < i; ++k) {
        const double by = upper_(k, i);
        const double* const solved = &block[k * kTogether];
        for (std::size_t s = 0; s < kTogether; ++s) here[s] -= by * solved[s];
      }
      for (std::size_t s = 0; s < kTogether; ++s) {
        here[s] *= inverse_diagonal_[i];
        sums[s] += here[s] * here[s];
      }
      std::copy_n(here.begin(), kTogether, &block[i * kTogether]);
    }
    std::copy_n(sums.begin(), count, out.begin() + static_cast<std::ptrdiff_t>(first));
  }
  return out;
}

std::vector<double> Cholesky::forward(std::span<const double> v) const {
  std::vector<double> out;
  forward_into(v, out);
  return out;
}

std::vector<double> Cholesky::backward(std::span<const double> v) const {
  const std::size_t n = upper_.rows;
  std::vector<double> out(n);
  for (std::size_t i = n; i-- > 0;) {
    double sum = v[i];
    for (std::size_t k = i + 1; k < n; ++k) sum -= upper_(i, k) * out[k];
    out[i] = sum * inverse_diagonal_[i];
  }
  return out;
}

double Cholesky::log_determinant() const {
  double sum = 0;
  for (std::size_t i = 0; i < upper_.rows; ++i) sum += 2 * std::log(upper_(i, i));
  return sum;
}

}  // namespace sherd::statistics
