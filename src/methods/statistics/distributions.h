#pragma once

#include <vector>

namespace sherd::statistics {

/// P(X > x) of chi-square with `df` > 0 degrees of freedom: the upper incomplete gamma function of df/2 at x/2, by its
/// series below df/2 + 1 and by its continued fraction above (M. Abramowitz & I. A. Stegun 1964, 6.5.29 and 6.5.31).
double chi_square_upper(double x, double df);

/// P(|T| > t) of Student's t, by the incomplete beta function (Abramowitz & Stegun 26.5.8, 26.7.1).
double student_two_sided(double t, double df);
/// The t with P(|T| > t) = alpha, 0 < alpha < 1: 2.228 for 0.05 and 10.
double student_limit(double alpha, double df);

/// P(X <= x) of the Beta distribution with a, b > 0: the incomplete beta function.
double beta_lower(double x, double a, double b);
/// P(X > x), without loss where it is small.
double beta_upper(double x, double a, double b);

/// P(F > f) of the F distribution with df1 and df2 > 0, for many f: what depends on the degrees of freedom alone is
/// worked out once (Abramowitz & Stegun 26.6.2, 26.5.8; a finite sum where df1 is even: 26.6.4).
class FTail {
 public:
  FTail(double df1, double df2);
  double operator()(double f) const;

 private:
  double finite_sum(double x, double other) const;

  double df1_, df2_, log_beta_;
  std::vector<double> terms_;  ///< of the finite sum; empty where there is none
};
double f_upper(double f, double df1, double df2);

}  // namespace sherd::statistics
