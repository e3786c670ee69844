#pragma once

#include <string>
#include <vector>

#include "figure/page.h"

namespace sherd::figure {

struct HeatCell {
  double shade = 0;   ///< 0 none to 1 the most; below 0, down to -1, the other way: hatched in iron red
  std::string text;   ///< written where it fits
  std::string words;  ///< told: "102 and 103: 154.2 of 200"
  std::string data_set;
};

/// A row or a column.
struct HeatSide {
  std::string name;
  std::string n = {};  ///< of rows: "245"
  std::string data_set = {};
};

/// A table whose cells are the darker the more they hold.
struct HeatTableData {
  About about;
  std::string title;  ///< above the columns: "Similarity, 0 to 200"
  std::string rows_word, columns_word, n_word;
  std::vector<HeatSide> rows, columns;
  std::vector<std::vector<HeatCell>> cells;  ///< row by row; short rows are blank at their ends
  std::string key_low, key_high;             ///< words at the ends of the key of shades; "" no key
  bool two_ways = false;                     ///< the key goes through nothing from one way to the other
  std::string nothing = "No pottery";
};

/// SVG. As many rows and columns as there is room for, the first first; what does not fit is told.
std::string heat_table(const HeatTableData& data, const Page& page);

}  // namespace sherd::figure
