#pragma once

#include <cstddef>
#include <string>

#include "figure/estimates.h"

namespace sherd::figure {

/// SVG of horizontal bars from zero, each with its value, its interval and its n.
std::string bars(const EstimatesData& data, const Page& page);

/// The first row that `bars` leaves out on this page, to be the next page's `first_row`; the number of rows where it
/// draws all.
std::size_t next_row_of_bars(const EstimatesData& data, const Page& page);

}  // namespace sherd::figure
