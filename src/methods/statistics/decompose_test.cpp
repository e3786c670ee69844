#include "methods/statistics/decompose.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/random.h"

namespace sherd::statistics {
namespace {

Matrix random_matrix(std::size_t rows, std::size_t columns, std::uint64_t seed) {
  Random random(seed);
  Matrix out(rows, columns);
  for (double& value : out.values) value = random.normal();
  return out;
}

TEST(SymmetricEigen, of_two_by_two_is_what_the_quadratic_equation_gives) {
  // Analytic: x^2 - 4x + 3 = 0.
  Matrix m(2, 2);
  m.values = {2, 1, 1, 2};
  const EigenSystem eigen = symmetric_eigen(m);
  EXPECT_NEAR(eigen.values[0], 3, 1e-14);
  EXPECT_NEAR(eigen.values[1], 1, 1e-14);
  EXPECT_NEAR(std::abs(eigen.vectors(0, 0)), std::sqrt(0.5), 1e-14);
  EXPECT_NEAR(eigen.vectors(0, 0), eigen.vectors(1, 0), 1e-14);
}

TEST(Product, is_what_sums_over_the_middle_give) {
  const Matrix a = random_matrix(7, 3, 1);
  const Matrix b = random_matrix(3, 4, 2);
  const Matrix ab = product(a, b);
  const Matrix aa = cross_product(a);
  for (std::size_t i = 0; i < 7; ++i) {
    for (std::size_t j = 0; j < 4; ++j)
      EXPECT_NEAR(ab(i, j), a(i, 0) * b(0, j) + a(i, 1) * b(1, j) + a(i, 2) * b(2, j), 1e-14);
  }
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      double sum = 0;
      for (std::size_t k = 0; k < 7; ++k) sum += a(k, i) * a(k, j);
      EXPECT_NEAR(aa(i, j), sum, 1e-14);
    }
  }
}

TEST(SingularValues, put_the_matrix_together_again_whether_high_or_wide) {
  for (const auto& [rows, columns] : {std::pair<std::size_t, std::size_t>{9, 4}, {4, 9}, {5, 5}}) {
    const Matrix m = random_matrix(rows, columns, 5);
    const Singular parts = singular_values(m, 100);
    ASSERT_EQ(parts.values.size(), std::min(rows, columns));
    for (std::size_t i = 0; i < rows; ++i) {
      for (std::size_t j = 0; j < columns; ++j) {
        double sum = 0;
        for (std::size_t k = 0; k < parts.values.size(); ++k)
          sum += parts.left(i, k) * parts.values[k] * parts.right(j, k);
        EXPECT_NEAR(sum, m(i, j), 1e-10);
      }
    }
  }
}

TEST(SingularValues, of_a_matrix_of_rank_one_are_one_value) {
  Matrix m(3, 4);
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 4; ++j) m(i, j) = static_cast<double>((i + 1) * (j + 1));
  }
  const Singular parts = singular_values(m, 100);
  ASSERT_EQ(parts.values.size(), 1U);
  EXPECT_NEAR(parts.values[0], std::sqrt(14.0 * 30.0), 1e-10);  // lengths of (1,2,3) and (1,2,3,4)
}

TEST(LeastSquares, of_two_groups_gives_their_means_and_the_pooled_variance) {
  // Analytic: a column of ones and a dummy; means 2 and 7, sums of squares 2 and 8, 3 degrees of freedom.
  Matrix x(5, 2);
  x.values = {1, 0, 1, 0, 1, 1, 1, 1, 1, 1};
  const std::vector<double> y{1, 3, 5, 7, 9};
  const auto fit = least_squares(x, y);
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->coefficients[0], 2, 1e-12);
  EXPECT_NEAR(fit->coefficients[1], 5, 1e-12);
  EXPECT_NEAR(fit->residual_ss, 10, 1e-12);
  EXPECT_EQ(fit->df, 3U);
  EXPECT_NEAR(fit->inverse(0, 0), 0.5, 1e-12);              // variance of a mean of two
  EXPECT_NEAR(fit->inverse(1, 1), 0.5 + 1.0 / 3.0, 1e-12);  // of a difference of means
  EXPECT_NEAR(fit->leverage(x.row(4)), 1.0 / 3.0, 1e-12);
}

TEST(LeastSquares, refuses_columns_that_depend_on_one_another) {
  Matrix x(3, 2);
  x.values = {1, 2, 1, 2, 1, 2};
  EXPECT_FALSE(least_squares(x, std::vector<double>{1, 2, 3}));
  EXPECT_EQ(rank_of(x), 1U);
}

}  // namespace
}  // namespace sherd::statistics
