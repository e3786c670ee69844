#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace sherd::statistics {

/// Numbers in rows and columns, row by row.
struct Matrix {
  std::size_t rows = 0, columns = 0;
  std::vector<double> values;

  Matrix() = default;
  Matrix(std::size_t row_count, std::size_t column_count)
      : rows(row_count), columns(column_count), values(row_count * column_count, 0.0) {}

  double& operator()(std::size_t row, std::size_t column) { return values[row * columns + column]; }
  double operator()(std::size_t row, std::size_t column) const { return values[row * columns + column]; }
  std::span<const double> row(std::size_t index) const { return std::span(values).subspan(index * columns, columns); }
};

std::vector<double> row_sums(const Matrix& matrix);
std::vector<double> column_sums(const Matrix& matrix);
double sum_of(std::span<const double> values);

}  // namespace sherd::statistics
