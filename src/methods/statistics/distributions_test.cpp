#include "methods/statistics/distributions.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sherd::statistics {
namespace {

TEST(ChiSquareUpper, agrees_with_the_table_of_five_percent_points) {
  // Percentage points as printed in any table of chi-square (values from memory): 1, 2, 5, 10 and 30 degrees.
  EXPECT_NEAR(chi_square_upper(3.841459, 1), 0.05, 1e-7);
  EXPECT_NEAR(chi_square_upper(5.991465, 2), 0.05, 1e-7);
  EXPECT_NEAR(chi_square_upper(11.070498, 5), 0.05, 1e-7);
  EXPECT_NEAR(chi_square_upper(18.307038, 10), 0.05, 1e-7);
  EXPECT_NEAR(chi_square_upper(43.772972, 30), 0.05, 1e-7);
}

TEST(ChiSquareUpper, of_two_and_four_degrees_has_a_closed_form) {
  for (const double x : {0.1, 1.0, 5.0, 20.0, 200.0}) {
    EXPECT_NEAR(chi_square_upper(x, 2) / std::exp(-x / 2), 1, 1e-10);
    EXPECT_NEAR(chi_square_upper(x, 4) / (std::exp(-x / 2) * (1 + x / 2)), 1, 1e-9);
  }
  EXPECT_EQ(chi_square_upper(0, 3), 1);
}

TEST(Student, agrees_with_the_table_of_two_sided_five_percent_points) {
  // As printed in tables of t (values from memory): 12.706, 2.776, 2.228, 2.042.
  EXPECT_NEAR(student_limit(0.05, 1), 12.7062, 5e-5);
  EXPECT_NEAR(student_limit(0.05, 4), 2.7764, 5e-5);
  EXPECT_NEAR(student_limit(0.05, 10), 2.2281, 5e-5);
  EXPECT_NEAR(student_limit(0.05, 30), 2.0423, 5e-5);
  // One degree: the Cauchy distribution, P(|T| > 1) = 1/2; many: the normal one.
  EXPECT_NEAR(student_two_sided(1, 1), 0.5, 1e-12);
  EXPECT_NEAR(student_limit(0.05, 1e7), 1.959964, 1e-5);
}

TEST(FUpper, agrees_with_the_table_of_five_percent_points) {
  // As printed in tables of F (values from memory): F(1, 10) 4.96, F(3, 22) 3.05, F(5, 20) 2.71, F(20, 500) 1.59.
  EXPECT_NEAR(f_upper(4.9646, 1, 10), 0.05, 1e-5);
  EXPECT_NEAR(f_upper(3.0491, 3, 22), 0.05, 1e-5);
  EXPECT_NEAR(f_upper(2.7109, 5, 20), 0.05, 1e-5);
  EXPECT_NEAR(f_upper(1.5918, 20, 500), 0.05, 1e-4);
}

TEST(FUpper, has_a_closed_form_where_a_degree_of_freedom_is_two) {
  // Analytic: df1 = 2 gives (1 + 2 f / df2)^(-df2 / 2); also far out, where P is tiny.
  for (const double f : {0.01, 1.0, 20.0, 1e4, 1e8}) {
    EXPECT_NEAR(f_upper(f, 2, 9) / std::pow(1 + 2 * f / 9, -4.5), 1, 1e-10) << f;
  }
  EXPECT_EQ(f_upper(0, 3, 4), 1);
}

TEST(FUpper, by_a_finite_sum_is_that_of_the_incomplete_beta_function) {
  for (const double f : {1e-3, 0.3, 1.0, 2.5, 40.0, 1e5}) {
    for (const double df1 : {2.0, 8.0, 20.0, 60.0}) {
      for (const double df2 : {1.0, 7.0, 480.0}) {
        const double x = df1 * f / (df2 + df1 * f);
        const double direct = beta_upper(x, df1 / 2, df2 / 2);
        EXPECT_NEAR(f_upper(f, df1, df2), direct, 1e-11 * direct + 1e-14) << f << " " << df1 << " " << df2;
      }
    }
  }
}

TEST(FUpper, of_one_and_many_is_the_square_of_students_t) {
  for (const double t : {0.2, 1.0, 3.0, 12.0}) EXPECT_NEAR(f_upper(t * t, 1, 7) / student_two_sided(t, 7), 1, 1e-12);
}

TEST(Beta, of_whole_numbers_is_a_sum_of_binomial_terms) {
  // Analytic: I_x(2, 3) = 6 x^2 - 8 x^3 + 3 x^4.
  for (const double x : {0.05, 0.4, 0.9}) {
    const double sum = 6 * x * x - 8 * x * x * x + 3 * x * x * x * x;
    EXPECT_NEAR(beta_lower(x, 2, 3), sum, 1e-14);
    EXPECT_NEAR(beta_upper(x, 2, 3), 1 - sum, 1e-14);
  }
  EXPECT_EQ(beta_lower(0, 2, 3), 0);
  EXPECT_EQ(beta_lower(1, 2, 3), 1);
  EXPECT_NEAR(beta_upper(1 - 1e-9, 2, 3) / 4e-27, 1, 1e-5);  // 4 (1 - x)^3 close to 1
}

}  // namespace
}  // namespace sherd::statistics
