#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "desk/frame/session.h"
#include "model/record_vessels.h"
#include "model/section.h"

/// Measured pieces of the record, with their sections and bands.
namespace sherd::desk {

struct PieceRecord {
  Piece piece;  ///< of points that name a vessel and no piece: the vessel's name stands for it
  std::vector<Section> sections;
  std::vector<Band> bands;
  std::optional<RecordLine> line;  ///< that it names by record, else the first of its vessel with a form or a rim
  std::string form;                ///< its own, else its line's

  const Section* section(std::string_view name) const;
};

/// All of them, in the order of the record; vessels that have points and no piece come behind.
Result<std::vector<PieceRecord>> read_pieces(const Session& session);
/// By the name of a piece, else of a vessel, else by record number. Error `no_piece` with "did you mean".
Result<PieceRecord> read_piece(const Session& session, const std::string& name);

/// The points of sections as rows of the record, of that piece.
std::vector<SectionPoint> points_of(const std::string& piece, const std::vector<Section>& sections);
/// Rows of the record as sections: points in the order of `point` where all of a side have one, else of the rows; a
/// blank side is the outer one, or a closed outline.
Result<std::vector<Section>> sections_of(const std::vector<SectionPoint>& points);

}  // namespace sherd::desk
