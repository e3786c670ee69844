#include "methods/stratigraphy/quadrature.h"

#include <cmath>
#include <numbers>

namespace sherd::stratigraphy {

Quadrature gauss_legendre(std::size_t count) {
  Quadrature out{std::vector<double>(count), std::vector<double>(count)};
  const auto n = static_cast<double>(count);
  for (std::size_t i = 0; i < count; ++i) {
    double x = -std::cos(std::numbers::pi * (static_cast<double>(i) + 0.75) / (n + 0.5));
    double slope = 0;
    for (int step = 0; step < 50; ++step) {
      double before = 1;
      double now = x;
      for (std::size_t k = 2; k <= count; ++k) {
        const auto degree = static_cast<double>(k);
        const double next = ((2 * degree - 1) * x * now - (degree - 1) * before) / degree;
        before = now;
        now = next;
      }
      slope = n * (x * now - before) / (x * x - 1);
      const double by = now / slope;
      x -= by;
      if (std::abs(by) < 1e-15) break;
    }
    out.points[i] = (x + 1) / 2;
    out.weights[i] = 1 / ((1 - x * x) * slope * slope);
  }
  return out;
}

}  // namespace sherd::stratigraphy
