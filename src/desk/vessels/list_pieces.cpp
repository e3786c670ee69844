#include "desk/vessels/list_pieces.h"

#include "desk/frame/session.h"
#include "desk/vessels/piece_rows.h"

namespace sherd::desk {

namespace {

template <class Q>
std::optional<double> mm(const std::optional<Q>& length) {
  return length ? std::optional(length->mm()) : std::nullopt;
}
std::optional<double> percent(const std::optional<Percent>& share) {
  return share ? std::optional(share->percent()) : std::nullopt;
}
template <WordList E>
std::string text(const std::optional<E>& value) {
  return value ? std::string(word(*value)) : std::string();
}

PieceEntry entry_of(const PieceRecord& record, bool outlines) {
  const Piece& piece = record.piece;
  PieceEntry entry{.piece = piece.piece, .vessel = piece.vessel, .record = piece.record};
  if (record.line) {
    if (entry.record.empty() && !piece.vessel.empty()) entry.record = record.line->record;
    entry.context = record.line->context;
    entry.fabric = record.line->fabric;
  }
  entry.form = record.form;
  entry.part = piece.part;
  entry.technique = piece.technique;
  entry.stance = text(piece.stance);
  entry.source = text(piece.source);
  entry.scale = piece.scale;
  entry.picture = piece.picture;
  entry.measured_by = piece.measured_by;
  entry.measured_on = piece.measured_on;
  entry.reference = piece.reference;
  entry.notes = piece.notes;
  entry.rim_diameter_mm = mm(piece.rim_diameter);
  entry.rim_least_mm = mm(piece.rim_least);
  entry.rim_most_mm = mm(piece.rim_most);
  entry.diameter_certainty = text(piece.diameter_certainty);
  entry.rim_percent = percent(piece.rim_percent);
  entry.base_diameter_mm = mm(piece.base_diameter);
  entry.base_percent = percent(piece.base_percent);
  entry.handles = piece.handles;
  entry.bands = static_cast<std::int64_t>(record.bands.size());
  for (const Section& section : record.sections) {
    entry.sections.push_back(view_of(section, piece, outlines));
    for (const vessel::SectionFinding& finding : entry.sections.back().findings) {
      entry.errors += finding.severity == "error" ? 1 : 0;
      entry.warnings += finding.severity == "warning" ? 1 : 0;
    }
  }
  return entry;
}

}  // namespace

Result<PiecesResponse> list_pieces(const PiecesRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  PiecesResponse response;
  SHERD_TRY(response.provenance, session.provenance(environment));
  std::vector<PieceRecord> records;
  if (request.vessel.empty()) {
    SHERD_TRY(records, read_pieces(session));
  } else {
    SHERD_TRY(PieceRecord record, read_piece(session, request.vessel));
    records.push_back(std::move(record));
  }
  for (const PieceRecord& record : records) response.pieces.push_back(entry_of(record, request.outlines));
  return response;
}

}  // namespace sherd::desk
