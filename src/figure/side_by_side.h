#pragma once

#include <optional>
#include <string>
#include <vector>

#include "figure/page.h"

namespace sherd::figure {

/// What a row has in one of the columns.
struct SideBySideCell {
  std::optional<double> value;  ///< nothing, negative or no number up to 1e100: "not recorded" in words
  std::string note;             ///< beneath the bar: "1,510"
};

struct SideBySideRow {
  std::string name;
  std::vector<SideBySideCell> cells;  ///< one a column; missing ones are not recorded
  std::string data_set;
};

struct SideBySideData {
  About about;
  std::string title;      ///< above the columns: "Share of all (%), the amount beneath"
  std::string unit;       ///< of the values, told with each mark: "%"
  int decimals = 1;       ///< of the values written beside the bars
  std::string rows_word;  ///< "fabrics"
  std::vector<std::string> columns;
  std::vector<SideBySideRow> rows;
};

/// SVG of horizontal bars in columns beside one another, all on one scale from zero, each with its value.
std::string side_by_side(const SideBySideData& data, const Page& page);

}  // namespace sherd::figure
