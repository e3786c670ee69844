#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "methods/stratigraphy/breaking.h"
#include "methods/stratigraphy/laid_down.h"
#include "methods/stratigraphy/result.h"

namespace sherd::stratigraphy {

/// Chances of the years of a window; they sum to 1.
using YearChances = std::vector<double>;

/// From chances of states: when completed, and when begun. What began before the window counts to its first year.
YearChances completed_chances(const Cells& states);
YearChances began_chances(const Cells& states, const std::vector<std::int64_t>& durations);

/// Relative likelihoods from their logarithms, the sum 1; all 0 where nothing is possible.
Cells chances_of(const Cells& log_like);

/// The first year by which half of it lies.
std::int64_t median_of(const YearChances& chances, Years years);
DateSummary summary_of(const YearChances& chances, Years years);
/// Of draws: their median and the shortest intervals, one each.
DateSummary summary_of_draws(std::vector<std::int64_t> values, Years years);
/// The shortest interval that holds so much of ascending values.
std::vector<std::int64_t> shortest_of(const std::vector<std::int64_t>& ascending, double mass);

/// Sum of the lesser of the two in each year, 0..1.
double overlap(const YearChances& a, const YearChances& b);

/// A year rounded down or up to a step; nothing becomes the year 0 of the calendar.
Year rounded(Year year, std::int64_t step, bool up);
/// "1835-1905", "1200-1255 or 1840-1900": outwards to 5 years, to 10 where it spans `coarse_from` years or more.
std::string rounded_text(const std::vector<std::vector<Year>>& ranges, double coarse_from);

}  // namespace sherd::stratigraphy
