#pragma once

#include <cstddef>
#include <vector>

#include "methods/stratigraphy/problem.h"

namespace sherd::stratigraphy {

/// Units and boundaries as one set of things in order: units first, then boundaries.
struct Order {
  std::vector<std::vector<std::size_t>> below, above;
  std::vector<std::size_t> earliest_first;  ///< fewer than there are where there is a loop
};
Order order_of(const Problem& problem, const Boundaries& boundaries);

}  // namespace sherd::stratigraphy
