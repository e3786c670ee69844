#pragma once

namespace sherd::statistics {

/// P(X > x) of chi-square with `df` > 0 degrees of freedom: the upper incomplete gamma function of df/2 at x/2, by its
/// series below df/2 + 1 and by its continued fraction above (M. Abramowitz & I. A. Stegun 1964, 6.5.29 and 6.5.31).
double chi_square_upper(double x, double df);

/// P(|T| > t) of Student's t, by the incomplete beta function (Abramowitz & Stegun 26.5.8, 26.7.1).
double student_two_sided(double t, double df);
/// The t with P(|T| > t) = alpha, 0 < alpha < 1: 2.228 for 0.05 and 10.
double student_limit(double alpha, double df);

}  // namespace sherd::statistics
