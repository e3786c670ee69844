#pragma once

#include <string>
#include <vector>

#include "methods/compare/table.h"

/// Tables that several tests share.
namespace sherd::compare {

inline CountTable table_of(std::vector<std::string> rows, std::vector<std::string> columns,
                           std::vector<double> values) {
  CountTable table{.row_labels = std::move(rows), .column_labels = std::move(columns), .counts = {}};
  table.counts.rows = table.row_labels.size();
  table.counts.columns = table.column_labels.size();
  table.counts.values = std::move(values);
  return table;
}

inline std::vector<std::string> letters(std::size_t n) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < n; ++i) out.emplace_back(1, static_cast<char>('A' + i));
  return out;
}

/// Hallettes at Compiegne: ware groups by period, 5 the latest (A. Lacroix 1997, as packaged with other open tables).
inline CountTable compiegne() {
  return table_of({"5", "4", "3", "2", "1"}, letters(16),
                  {13740, 375,  8270,  250,  20,   10,   40,   80,   0,   5,    1740, 460,  0,   1510, 350, 0,
                   13540, 1520, 10110, 740,  1230, 635,  265,  400,  0,   105,  7210, 1785, 410, 565,  310, 450,
                   12490, 5255, 4220,  980,  1395, 1415, 440,  680,  30,  580,  6750, 5930, 350, 160,  10,  275,
                   6940,  2880, 5800,  3400, 1510, 2280, 1080, 2840, 620, 2075, 2130, 2410, 910, 410,  310, 410,
                   6490,  2350, 6900,  2745, 670,  3020, 950,  6700, 340, 2660, 1080, 570,  740, 190,  985, 50});
}

/// Eye by hair of 592 students (R. D. Snee 1974, The American Statistician 28: 9-12; L. Lebart's ordering).
inline CountTable eyes_and_hair() {
  return table_of({"brown", "hazel", "green", "blue"}, {"black", "brown", "red", "blond"},
                  {68, 119, 26, 7, 15, 54, 14, 10, 5, 29, 14, 16, 20, 84, 17, 94});
}

}  // namespace sherd::compare
