#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace sherd::statistics {

/// Squared straight-line distance.
double squared_between(std::span<const double> a, std::span<const double> b);

/// The same groups, numbered from 0 by their first member.
std::vector<std::size_t> numbered_by_first(std::vector<std::size_t> groups);

}  // namespace sherd::statistics
