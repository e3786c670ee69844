#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "figure/estimates.h"

namespace sherd::figure {

/// A value to compare the rows with: "whole site".
struct Reference {
  std::string name;
  double value = 0;
};

struct DotsData {
  EstimatesData estimates;
  std::optional<Reference> reference;
};

/// SVG of a dot a row on an axis that starts where the data says, each with its value, its interval and its n.
std::string dots(const DotsData& data, const Page& page);

/// As `next_row_of_bars`.
std::size_t next_row_of_dots(const DotsData& data, const Page& page);

}  // namespace sherd::figure
