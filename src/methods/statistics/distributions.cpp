#include "methods/statistics/distributions.h"

#include <cmath>

namespace sherd::statistics {

namespace {

constexpr int kMostTerms = 100'000;
constexpr double kClose = 1e-16;
constexpr double kTiny = 1e-300;
constexpr double kMostSummed = 50;

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

double log_beta(double a, double b) { return std::lgamma(a) + std::lgamma(b) - std::lgamma(a + b); }

/// `other` is 1 - x: where x is close to 1 the caller knows it better.
double incomplete_beta(double x, double other, double a, double b, double log_beta_ab) {
  if (!(x > 0)) return 0.0;
  if (!(other > 0)) return 1.0;
  const double front = std::exp(a * std::log(x) + b * std::log(other) - log_beta_ab);
  if (x < (a + 1.0) / (a + b + 2.0)) return front * beta_fraction(x, a, b) / a;
  return 1.0 - front * beta_fraction(other, b, a) / b;
}

}  // namespace

double chi_square_upper(double x, double df) {
  if (x <= 0) return 1.0;
  const double a = df / 2.0;
  const double half = x / 2.0;
  return half < a + 1.0 ? 1.0 - gamma_series(a, half) : gamma_fraction(a, half);
}

double student_two_sided(double t, double df) {
  const double square = t * t;
  return incomplete_beta(df / (df + square), square / (df + square), df / 2.0, 0.5, log_beta(df / 2.0, 0.5));
}

double beta_lower(double x, double a, double b) { return incomplete_beta(x, 1.0 - x, a, b, log_beta(a, b)); }
double beta_upper(double x, double a, double b) { return incomplete_beta(1.0 - x, x, b, a, log_beta(a, b)); }

FTail::FTail(double df1, double df2) : df1_(df1), df2_(df2), log_beta_(log_beta(df1 / 2.0, df2 / 2.0)) {
  const double half = df1 / 2.0;
  if (half != std::floor(half) || half > kMostSummed) return;
  double term = 1;
  for (double i = 0; i < half; ++i) {
    terms_.push_back(term);
    term *= (df2 / 2.0 + i) / (i + 1.0);
  }
}

/// I_x(a, b) = x^a (1 + a y + a (a + 1) y^2 / 2! + ...) to y^(b - 1), where b is whole and y = 1 - x.
double FTail::finite_sum(double x, double other) const {
  double sum = 0;
  for (auto term = terms_.rbegin(); term != terms_.rend(); ++term) sum = sum * other + *term;
  return std::exp(df2_ / 2.0 * std::log(x)) * sum;
}

double FTail::operator()(double f) const {
  if (!(f > 0)) return 1.0;
  const double product = df1_ * f;
  if (!std::isfinite(product)) return 0.0;
  if (!terms_.empty()) return finite_sum(df2_ / (df2_ + product), product / (df2_ + product));
  return incomplete_beta(df2_ / (df2_ + product), product / (df2_ + product), df2_ / 2.0, df1_ / 2.0, log_beta_);
}

double f_upper(double f, double df1, double df2) { return FTail(df1, df2)(f); }

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
