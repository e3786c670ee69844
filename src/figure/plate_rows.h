#pragma once

#include <cstddef>
#include <vector>

namespace sherd::figure {

/// What a drawing takes of a plate, in mm.
struct PlateItem {
  double width = 0, above = 0, below = 0;
  double height() const { return above + below; }
};

/// Drawings first..last-1, one under the other.
struct PlateColumn {
  std::size_t first = 0, last = 0;
  double width = 0, height = 0;
};

/// Columns side by side; most hold one drawing, a few small ones stand beneath each other beside a tall one.
struct PlateRow {
  std::size_t first = 0, last = 0;
  std::vector<PlateColumn> columns;
  double width = 0, height = 0;  ///< width without gaps
};

struct PlateRoom {
  double width = 135, height = 180, gap = 5, row_gap = 5;
};

/// The rows of each page. Every item fits the room by itself. The order is kept, each page takes as many drawings as it
/// can, and among the ways to do so its rows are those that come out most even. By dynamic programming, as lines of a
/// paragraph are broken by Knuth & Plass 1981, Software: Practice and Experience 11: 1119-1184 (from memory).
std::vector<std::vector<PlateRow>> packed_rows(const std::vector<PlateItem>& items, const PlateRoom& room);

/// The rim lines of a column's drawings from the row's upper edge: those of one tier on one line where that fits.
std::vector<std::vector<double>> rim_lines(const std::vector<PlateItem>& items, const PlateRow& row, double row_gap);

}  // namespace sherd::figure
