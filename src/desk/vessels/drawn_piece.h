#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/vessels/drawing_look.h"
#include "desk/vessels/piece_rows.h"
#include "figure/vessel_drawing.h"

namespace sherd::desk {

/// A piece of the record as a drawing, and what of it could not be drawn, in sentences.
struct DrawnPiece {
  figure::VesselDrawing drawing;
  std::vector<std::string> left_out;
};

/// `number`: of the catalogue, "" for none. Diameter: certain where the piece says sure, or says nothing and 5 percent
/// of the rim or more survive; unknown where neither a diameter nor a stance is known, unless the section is of
/// landmarks, which were read from the axis; uncertain otherwise.
DrawnPiece draw_piece(const PieceRecord& piece, const std::string& number, const LookSettings& look);

/// Hand-made: hatched; moulded, or no pottery: open; everything else solid.
figure::SectionFill fill_by_technique(const std::string& technique);
/// "grey-1 jar, context 1013"; what is known of it.
std::string piece_words(const PieceRecord& piece);
/// A band of the record, or why it cannot be drawn.
Result<figure::VesselBand> drawn_band(const Band& band);

}  // namespace sherd::desk
