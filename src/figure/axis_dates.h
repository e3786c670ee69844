#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "figure/page.h"
#include "model/year.h"

namespace sherd::figure {

/// A year read off axes with its interval, and the year that it came with.
struct AxisDateRow {
  std::string name;
  Year year, low, high;
  std::optional<Year> given = {};
  std::string n = {};
  std::string data_set = {};
};

struct AxisDatesData {
  About about;
  std::string rows_word, n_word;
  std::vector<AxisDateRow> rows;
};

/// SVG of a line a row from the low to the high end of its interval, a dot at its year, and a hollow square at the year
/// that was given.
std::string axis_dates(const AxisDatesData& data, const Page& page);

/// As `next_row_of_bars`.
std::size_t next_row_of_axis_dates(const AxisDatesData& data, const Page& page);

}  // namespace sherd::figure
