#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "figure/frame.h"

namespace sherd::figure {

/// What stands at the left of a row.
struct RowText {
  std::string group;  ///< a heading is written where it changes
  std::string name;
  std::string n;  ///< "245"; "" where there is none
};

/// What a figure of rows asks for.
struct RowsRequest {
  About about;
  Page page;
  std::vector<RowText> rows;
  std::string rows_word, n_word;
  std::string axis_title;
  std::string axis_note;           ///< a second line under the axis title
  double mark_mm = 3;              ///< height of what is drawn in a row
  double padding_mm = 1.4;         ///< between one row's marks and the next
  bool n_below = false;            ///< n under the name in place of a column
  bool ticks_above = false;        ///< room for tick labels above the rows, too
  std::vector<LegendItem> legend;  ///< above everything
  std::vector<std::string> notes;  ///< sentences under the figure, before those on what was left out
};

struct PlacedRow {
  std::size_t index = 0;  ///< in the request
  double top = 0, height = 0;
  std::vector<std::string> name;  ///< its lines
  bool shortened = false;
  std::string heading;  ///< above the row; "" where the group goes on
  double middle() const { return top + height / 2; }
};

/// Where everything of a figure of rows lies, in mm.
struct RowFrame {
  double width = 0, height = 0;
  double name_width = 0, n_right = 0;
  double plot_left = 0, plot_top = 0, plot_bottom = 0;
  double title_top = 0;
  std::vector<std::string> title;  ///< lines of the axis title
  std::vector<PlacedRow> rows;
  std::size_t next = 0;  ///< first row that was left out, or the number of rows
  Legend legend;
  std::vector<std::string> notes;
};

/// Lays out the rows from page.first_row on, as many as the height allows, at least one.
RowFrame place_rows(const RowsRequest& request);
/// Everything but the axis and the marks.
void draw_frame(Svg& svg, const RowsRequest& request, const RowFrame& frame);

}  // namespace sherd::figure
