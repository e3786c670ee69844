#pragma once

#include <string>
#include <vector>

#include "desk/frame/session.h"
#include "desk/vessels/piece_rows.h"
#include "model/record_vessels.h"

namespace sherd::desk {

/// The register in the order of the catalogue: numbered drawings first, then the others as they were added.
Result<std::vector<Drawing>> read_drawings(const Session& session);

/// Error `unknown_drawing`, with "did you mean", for the first of `names` that the register does not have.
Result<void> all_known(const std::vector<std::string>& names, const std::vector<Drawing>& drawings);
/// Whether a drawing is to be published: it was not dropped.
bool is_wanted(const Drawing& drawing);
/// The piece that a drawing shows, by its piece, else its vessel, else its record; nullptr where there is none.
const PieceRecord* piece_of(const Drawing& drawing, const std::vector<PieceRecord>& pieces);
/// The number that the catalogue gives a piece, as text; "" where it has none.
std::string catalogue_number(const std::vector<Drawing>& drawings, const PieceRecord& piece);

}  // namespace sherd::desk
