#include "methods/statistics/draws.h"

#include <algorithm>
#include <cmath>

namespace sherd::statistics {

namespace {

constexpr double kFew = 10;

/// p <= 0.5, n p small.
std::int64_t by_inversion(std::int64_t n, double p, Random& random) {
  const double ratio = p / (1.0 - p);
  const auto trials = static_cast<double>(n);
  for (;;) {
    double u = random.uniform();
    double probability = std::exp(trials * std::log1p(-p));
    for (std::int64_t k = 0; k <= n; ++k) {
      if (u < probability) return k;
      u -= probability;
      probability *= ratio * static_cast<double>(n - k) / static_cast<double>(k + 1);
      if (probability <= 0) break;
    }
  }
}

/// What Stirling's formula leaves of ln k!.
double stirling_rest(double k) {
  const double next = k + 1;
  return (1.0 / 12 - (1.0 / 360 - 1.0 / 1260 / (next * next)) / (next * next)) / next;
}

std::int64_t by_rejection(double n, double p, Random& random) {
  const double q = 1.0 - p;
  const double spread = std::sqrt(n * p * q);
  const double b = 1.15 + 2.53 * spread;
  const double a = -0.0873 + 0.0248 * b + 0.01 * p;
  const double c = n * p + 0.5;
  const double ratio = p / q;
  const double alpha = (2.83 + 5.1 / b) * spread;
  const double m = std::floor((n + 1) * p);
  for (;;) {
    const double u = random.uniform() - 0.5;
    double v = random.uniform();
    const double us = 0.5 - std::abs(u);
    const double k = std::floor((2 * a / us + b) * u + c);
    if (us >= 0.07 && v <= 0.92 - 4.2 / b) return static_cast<std::int64_t>(k);
    if (!(k >= 0) || k > n) continue;
    v = std::log(v * alpha / (a / (us * us) + b));
    const double most = (m + 0.5) * std::log((m + 1) / (ratio * (n - m + 1))) +
                        (n + 1) * std::log((n - m + 1) / (n - k + 1)) +
                        (k + 0.5) * std::log(ratio * (n - k + 1) / (k + 1)) + stirling_rest(m) + stirling_rest(n - m) -
                        stirling_rest(k) - stirling_rest(n - k);
    if (v <= most) return static_cast<std::int64_t>(k);
  }
}

}  // namespace

std::int64_t draw_binomial(std::int64_t n, double p, Random& random) {
  if (n <= 0 || p <= 0) return 0;
  if (p >= 1) return n;
  if (p > 0.5) return n - draw_binomial(n, 1.0 - p, random);
  return static_cast<double>(n) * p < kFew ? by_inversion(n, p, random)
                                           : by_rejection(static_cast<double>(n), p, random);
}

void draw_multinomial(std::int64_t n, std::span<const double> weights, Random& random, std::vector<double>& drawn) {
  drawn.assign(weights.size(), 0.0);
  double left = 0;
  std::size_t last = 0;
  for (std::size_t i = 0; i < weights.size(); ++i) {
    left += weights[i];
    if (weights[i] > 0) last = i;
  }
  for (std::size_t i = 0; i < last && n > 0; ++i) {
    if (weights[i] <= 0) continue;
    const std::int64_t here = draw_binomial(n, weights[i] / left, random);
    drawn[i] = static_cast<double>(here);
    n -= here;
    left -= weights[i];
  }
  if (!weights.empty()) drawn[last] += static_cast<double>(n);
}

}  // namespace sherd::statistics
