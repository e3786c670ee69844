#pragma once

#include <cstddef>
#include <vector>

#include "methods/dating/evidence_years.h"

namespace sherd::dating {

/// All smallest sets of pieces whose removal leaves the others with a year in common: places in `allowed`, ascending.
/// One empty set where they have one already. Exact for any number of pieces, for years lie on one line: the smallest
/// sets are what the years that most pieces allow leave out.
std::vector<std::vector<std::size_t>> smallest_drops(const std::vector<YearSet>& allowed);

}  // namespace sherd::dating
