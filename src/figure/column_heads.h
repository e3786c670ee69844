#pragma once

#include <string>
#include <vector>

#include "figure/svg.h"

namespace sherd::figure {

/// A head above a column; `middle` in mm.
struct ColumnHead {
  double middle = 0, width = 0;
  std::string name;
};

/// Heads side by side where each fits its column, else turned to read from below.
struct ColumnHeads {
  std::vector<ColumnHead> heads;
  bool turned = false;
  double height = 0;
};
ColumnHeads place_heads(std::vector<ColumnHead> heads, double most_mm);
/// Ending on `bottom`. A shortened name is told in full.
void draw_heads(Svg& svg, const ColumnHeads& heads, double bottom);

}  // namespace sherd::figure
