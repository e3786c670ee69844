#pragma once

#include <string>
#include <vector>

#include "base/result.h"

/// Cards to record on by hand.
namespace sherd::figure {

/// A place to write into, with its name above it; `filled` is printed there.
struct CardBlank {
  std::string name;
  double share = 1;  ///< of the row's width, beside the others of the row
  std::string filled = {};
};

struct CardColumn {
  std::string name, unit;
  double share = 1;  ///< of the table's width
};

/// A card of one side. Lengths in mm, of the paper.
struct RecordingCard {
  double width_mm = 297, height_mm = 210;
  std::string title, site;
  std::vector<std::vector<CardBlank>> head;  ///< rows of blanks above the table
  std::vector<CardColumn> columns;
  std::vector<std::string> foot;  ///< what to keep in mind, and the codes; each begins a line of its own
};

struct DrawnCard {
  std::string svg;
  int lines = 0;  ///< empty lines of the table
};

/// The card at true size: head, a table whose lines are at least 7 mm high and fill the sheet, foot, and a line of 50
/// mm to check the print by. Error `bad_request` where the sheet holds fewer than three lines.
Result<DrawnCard> recording_card(const RecordingCard& card);

}  // namespace sherd::figure
