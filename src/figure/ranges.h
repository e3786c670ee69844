#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "figure/page.h"
#include "model/year.h"

namespace sherd::figure {

/// When a ware was in use.
struct WareRange {
  std::string name;
  std::string group;  ///< a heading is written where it changes
  YearRange range;    ///< an open end is drawn as a broken bar that ends in an arrowhead
  std::string source;
  std::string data_set;
};

struct RangesData {
  About about;
  std::string rows_word;  ///< "wares"
  std::vector<WareRange> rows;
};

/// SVG of a bar a ware on an axis of years, with its range in words.
std::string ranges(const RangesData& data, const Page& page);

/// As `next_row_of_bars`.
std::size_t next_row_of_ranges(const RangesData& data, const Page& page);

}  // namespace sherd::figure
