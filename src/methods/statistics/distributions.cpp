#include "methods/statistics/distributions.h"

#include <cmath>

namespace sherd::statistics {

namespace {

constexpr int kMostTerms = 100'000;
constexpr double kClose = 1e-16;
constexpr double kTiny = 1e-300;

double gamma_series(double a, double x) {
  double term = 1.0 / a;
  double sum = term;
  for (int n = 1; n < kMostTerms && term > sum * kClose; ++n) sum += term *= x / (a + n);
  return sum * std::exp(a * std::log(x) - x - std::lgamma(a));
}

/// By Lentz's way of evaluating a continued fraction.
double gamma_fraction(double a, double x) {
  double b = x + 1.0 - a;
  double c = 1.0 / kTiny;
  double d = 1.0 / b;
  double h = d;
  for (int n = 1; n < kMostTerms; ++n) {
    const double factor = -n * (n - a);
    b += 2.0;
    d = factor * d + b;
    if (std::abs(d) < kTiny) d = kTiny;
    c = b + factor / c;
    if (std::abs(c) < kTiny) c = kTiny;
    d = 1.0 / d;
    h *= d * c;
    if (std::abs(d * c - 1.0) < kClose) break;
  }
  return h * std::exp(a * std::log(x) - x - std::lgamma(a));
}

double beta_fraction(double x, double a, double b) {
  double c = 1.0;
  double d = 1.0 - (a + b) * x / (a + 1.0);
  if (std::abs(d) < kTiny) d = kTiny;
  d = 1.0 / d;
  double h = d;
  const auto next = [&](double factor) {
    d = 1.0 + factor * d;
    if (std::abs(d) < kTiny) d = kTiny;
    c = 1.0 + factor / c;
    if (std::abs(c) < kTiny) c = kTiny;
    d = 1.0 / d;
    h *= d * c;
  };
  for (int m = 1; m < kMostTerms; ++m) {
    const double before = h;
    next(m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)));
    next(-(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)));
    if (std::abs(h - before) <= kClose * std::abs(h)) break;
  }
  return h;
}

double incomplete_beta(double x, double a, double b) {
  if (x <= 0) return 0.0;
  if (x >= 1) return 1.0;
  const double front =
      std::exp(std::lgamma(a + b) - std::lgamma(a) - std::lgamma(b) + a * std::log(x) + b * std::log1p(-x));
  if (x < (a + 1.0) / (a + b + 2.0)) return front * beta_fraction(x, a, b) / a;
  return 1.0 - front * beta_fraction(1.0 - x, b, a) / b;
}

}  // namespace

double chi_square_upper(double x, double df) {
  if (x <= 0) return 1.0;
  const double a = df / 2.0;
  const double half = x / 2.0;
  return half < a + 1.0 ? 1.0 - gamma_series(a, half) : gamma_fraction(a, half);
}

double student_two_sided(double t, double df) { return incomplete_beta(df / (df + t * t), df / 2.0, 0.5); }

double student_limit(double alpha, double df) {
  double low = 0;
  double high = 1;
  while (student_two_sided(high, df) > alpha && high < 1e12) high *= 2;
  for (int step = 0; step < 200; ++step) {
    const double middle = (low + high) / 2;
    (student_two_sided(middle, df) > alpha ? low : high) = middle;
  }
  return (low + high) / 2;
}

}  // namespace sherd::statistics
