#pragma once

#include <cstddef>
#include <vector>

#include "methods/stratigraphy/problem.h"

namespace sherd::stratigraphy {

/// In how many ways the units of a stretch can be complete within its years, in their order (equal years are allowed),
/// up to a factor that is the same for every length: the logarithms for stretches of length 0, 1 ... problem.years - 1.
///
/// Without relations m^n for n units in m years, in a row m (m + 1) ... (m + n - 1), both exact. Otherwise the numbers
/// of ways (the order polynomial, R. Stanley 1970, from memory) would be too many to count; a unit with h others in a
/// row beneath it has some m + s h years to choose from, where s makes the second coefficient right wherever all rows
/// are equally long; the mean of that and of the same from above: for up to four units right within a factor of 1.5
/// over sixteen years. Times for which units were open are not looked at.
std::vector<double> log_ways(const Problem& problem, const Stretch& stretch);

}  // namespace sherd::stratigraphy
