#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/result.h"

namespace sherd::figure {

struct LabelLine {
  std::string name, value;
};

/// What stands on one label or slip.
struct Label {
  std::string site;     ///< small, above the heading
  std::string heading;  ///< what one looks for: "Context 104", "Box 3 of 12"
  std::vector<LabelLine> lines;
  std::string warning;   ///< in red, at its foot: "Over the limit of 10 kg"
  std::string code;      ///< what its QR code says; "" for none
  bool to_sign = false;  ///< a line to be filled in by hand when the piece is back
};

/// Labels of one size on sheets to be cut.
struct LabelSheet {
  std::string title;
  double sheet_width_mm = 210, sheet_height_mm = 297;
  double width_mm = 70, height_mm = 42;
  std::size_t start = 0;  ///< so many places of the first sheet are used up
  std::vector<Label> labels;
};

/// How many go on a sheet.
struct LabelGrid {
  std::size_t columns = 0, rows = 0;
  double left_mm = 0, top_mm = 0;
  std::size_t places() const { return columns * rows; }
};
/// Error `label_too_large` where not one fits, or `label_too_small` where nothing could be read on it.
Result<LabelGrid> label_grid(const LabelSheet& sheet);

/// A whole sheet each, as SVG at its printed size, with a line of 50 mm to measure after printing. Errors: those of
/// `label_grid` and of `qr_code`.
Result<std::vector<std::string>> label_sheets(const LabelSheet& sheet);

}  // namespace sherd::figure
