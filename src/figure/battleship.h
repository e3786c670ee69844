#pragma once

#include <string>
#include <vector>

#include "figure/page.h"

namespace sherd::figure {

/// An assemblage in its place of an order.
struct BattleshipRow {
  std::string name, n;
  std::string place = {};            ///< where resampled orders put it: "2 to 5"; "" not known
  std::vector<double> percent = {};  ///< one a type; missing, negative or not a number counts as 0
  std::vector<std::string> data_sets = {};
  std::string data_set = {};
};

struct BattleshipData {
  About about;
  std::string rows_word, types_word, n_word;
  std::vector<std::string> types;
  std::vector<BattleshipRow> rows;  ///< the first on top
};

/// SVG of a bar about a middle line for each type in each row, as wide as its share of the row; all types on one scale.
std::string battleship(const BattleshipData& data, const Page& page);

}  // namespace sherd::figure
