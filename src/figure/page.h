#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace sherd::figure {

inline constexpr double kSingleColumnMm = 84;
inline constexpr double kDoubleColumnMm = 174;

/// The place that a figure may take, at its printed size. A figure fills the width and takes the height it needs.
struct Page {
  double width_mm = kSingleColumnMm;  ///< 60 to 400; what lies beyond is taken as the nearer of them
  double max_height_mm = 235;         ///< figures of rows stop here and say how many rows were left out
  std::size_t first_row = 0;          ///< figures of rows start at this one: see `next_row` of each
};

/// What every figure says of itself. The caption is the page's business; a figure prints no title.
struct About {
  std::string title;                  ///< read out by a reader of screens
  std::vector<std::string> left_out;  ///< whole sentences, written under the figure: "12 undated sherds are left out."
};

}  // namespace sherd::figure
