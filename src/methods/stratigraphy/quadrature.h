#pragma once

#include <cstddef>
#include <vector>

namespace sherd::stratigraphy {

/// Points and weights of Gauss and Legendre for integrals over (0, 1), the points ascending. The rule is exact for
/// polynomials of degree 2 count - 1.
struct Quadrature {
  std::vector<double> points, weights;
};
Quadrature gauss_legendre(std::size_t count);

}  // namespace sherd::stratigraphy
