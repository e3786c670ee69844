#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "figure/vessel_drawing.h"

namespace sherd::figure {

/// One sheet for whoever draws a vessel by hand: what is known of it, a sketch where there is a section, room for
/// notes.
struct BriefSheet {
  std::string title, subtitle;
  std::vector<std::pair<std::string, std::string>> facts;
  std::vector<std::string> asked;  ///< sentences: what is to be shown
  std::optional<VesselDrawing> sketch;
  DrawingSettings settings;
  std::string foot;  ///< state of the record, program
};

/// SVG of an A4 sheet, upright. A sketch that is too large for its place is drawn at the next whole scale that fits,
/// which is said beside it.
std::string brief_sheet(const BriefSheet& sheet);

}  // namespace sherd::figure
