#pragma once

#include <array>

#include "methods/statistics/clusters_result.h"

namespace sherd::statistics {

/// An interval [from, to], both ends part of it.
using Interval = std::array<double, 2>;

}  // namespace sherd::statistics
