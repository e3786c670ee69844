#include "desk/archive/archive_drawings.h"

#include <algorithm>

#include "desk/archive/archive_figures.h"
#include "desk/vessels/drawing_look.h"
#include "desk/vessels/drawn_piece.h"
#include "desk/vessels/register_rows.h"

namespace sherd::desk {

namespace {

/// The scale that the register says of a piece, where it is one that drawings are printed at.
double scale_of(const std::vector<Drawing>& drawings, const std::vector<PieceRecord>& pieces,
                const PieceRecord& piece) {
  for (const Drawing& drawing : drawings) {
    if (!is_wanted(drawing) || drawing.scale.empty() || piece_of(drawing, pieces) != &piece) continue;
    if (const auto scale = read_scale(drawing.scale)) return *scale;
  }
  return figure::DrawingSettings{}.scale;
}

}  // namespace

Result<void> archive_drawings(const Session& session, ArchiveFolder& folder, Progress& progress) {
  SHERD_TRY(const std::vector<PieceRecord> pieces, read_pieces(session));
  SHERD_TRY(const std::vector<Drawing> drawings, read_drawings(session));
  for (const PieceRecord& piece : pieces) {
    if (piece.sections.empty()) continue;
    if (!progress.step(0.3, "drawing " + piece.piece.piece)) return fail(ErrorKind::stopped, "stopped", "stopped");
    LookSettings look;
    look.drawing.scale = scale_of(drawings, pieces, piece);
    const DrawnPiece drawn = draw_piece(piece, catalogue_number(drawings, piece), look);
    std::string words = drawn.drawing.title + "; at " + figure::scale_text(look.drawing.scale);
    for (const std::string& one : drawn.left_out) words += "; " + one;
    std::string path = folder.names().take("drawings", piece.piece.piece, ".svg");
    path.resize(path.size() - 4);
    SHERD_CHECK(archive_figure({path, "Drawing of " + piece.piece.piece, words},
                               figure::vessel_drawing(drawn.drawing, look.drawing), folder));
  }
  return {};
}

}  // namespace sherd::desk
