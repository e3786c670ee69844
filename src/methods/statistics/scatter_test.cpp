#include "methods/statistics/scatter.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sherd::statistics {
namespace {

Matrix points() {
  Matrix out(4, 2);
  out.values = {1, 2, 3, 1, 5, 6, 7, 3};
  return out;
}

TEST(Scatter, is_what_sums_of_products_give_by_hand) {
  const Matrix p = points();
  const std::vector<double> mean = column_means(p);
  EXPECT_EQ(mean, (std::vector<double>{4, 3}));
  const Matrix s = scatter(p, mean);
  EXPECT_EQ(s.values, (std::vector<double>{20, 8, 8, 14}));
  const std::vector<std::size_t> two{0, 2};
  EXPECT_EQ(column_means(p, two), (std::vector<double>{3, 4}));
  EXPECT_EQ(scatter(p, column_means(p, two), two).values, (std::vector<double>{8, 8, 8, 8}));
}

TEST(Scatter, of_a_column_that_is_the_same_throughout_is_0_and_not_what_rounding_leaves) {
  Matrix p(7, 2);
  for (std::size_t i = 0; i < 7; ++i) {
    p(i, 0) = 0.4;
    p(i, 1) = static_cast<double>(i);
  }
  const Matrix s = scatter(p, column_means(p));
  EXPECT_EQ(s.values, (std::vector<double>{0, 0, 0, 28}));
}

TEST(Cholesky, measures_as_the_inverse_does) {
  // By hand: the inverse of (20 8; 8 14) is (14 -8; -8 20) / 216.
  const auto factor = Cholesky::of(scatter(points(), column_means(points())));
  ASSERT_TRUE(factor);
  std::vector<double> work;
  const std::vector<double> v{3, -1};
  EXPECT_NEAR(factor->squared_length(v, work), (14 * 9 + 2 * 8 * 3 + 20) / 216.0, 1e-15);
  EXPECT_NEAR(factor->log_determinant(), std::log(216.0), 1e-14);
  const std::vector<double> solved = factor->backward(factor->forward(v));
  EXPECT_NEAR(solved[0], (14 * 3 + 8) / 216.0, 1e-15);
  EXPECT_NEAR(solved[1], (-8 * 3 - 20) / 216.0, 1e-15);
}

TEST(Cholesky, measures_many_rows_as_it_measures_one) {
  const std::vector<double> mean = column_means(points());
  const auto factor = Cholesky::of(scatter(points(), mean));
  Matrix many(19, 2);
  for (std::size_t i = 0; i < 19; ++i) {
    many(i, 0) = 0.7 * static_cast<double>(i);
    many(i, 1) = 5 - static_cast<double>(i * i);
  }
  const std::vector<double> found = factor->squared_lengths(many, mean);
  ASSERT_EQ(found.size(), 19U);
  std::vector<double> work;
  for (std::size_t i = 0; i < 19; ++i) {
    const std::vector<double> off{many(i, 0) - mean[0], many(i, 1) - mean[1]};
    EXPECT_NEAR(found[i], factor->squared_length(off, work), 1e-12 * found[i]);
  }
}

TEST(Cholesky, names_the_column_that_depends_on_others) {
  Matrix m(3, 3);
  m.values = {4, 2, 6, 2, 3, 5, 6, 5, 11};  // the third is the sum of the first two
  EXPECT_FALSE(Cholesky::of(m));
  EXPECT_EQ(Cholesky::dependent_column(m), std::optional<std::size_t>(2));
  m.values = {0, 0, 0, 0, 1, 0, 0, 0, 1};
  EXPECT_EQ(Cholesky::dependent_column(m), std::optional<std::size_t>(0));
}

}  // namespace
}  // namespace sherd::statistics
