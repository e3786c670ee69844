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

}  // namespace
}  // namespace sherd::statistics
