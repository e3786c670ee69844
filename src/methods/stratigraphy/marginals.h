#pragma once

#include <cstddef>
#include <vector>

#include "methods/stratigraphy/drawing.h"
#include "methods/stratigraphy/problem.h"

namespace sherd::stratigraphy {

/// The chance of each state of a unit: [duration][year completed], summing to 1.
using Chances = std::vector<std::vector<double>>;

/// The mean, over the draws, of a unit's distribution given the dates of its neighbours: much smoother than a count of
/// the draws (Rao and Blackwell). `above` as Problem::above.
Chances marginal(const Problem& problem, const Boundaries& boundaries,
                 const std::vector<std::vector<std::uint32_t>>& above, const Draws& draws, std::uint32_t unit);

/// True where no stretch holds the units and the order, directions aside, is a forest: then the dates need no drawing.
bool is_forest(const Problem& problem);
/// The marginals of all units of such a problem, exact, by messages along the branches.
std::vector<Chances> exact_marginals(const Problem& problem);

}  // namespace sherd::stratigraphy
