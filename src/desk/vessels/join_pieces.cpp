#include "desk/vessels/join_pieces.h"

#include "base/text.h"
#include "desk/frame/session.h"
#include "desk/vessels/keep_section.h"
#include "desk/vessels/number_options.h"
#include "desk/vessels/piece_rows.h"
#include "methods/vessel/section.h"
#include "model/table.h"

namespace sherd::desk {

namespace {

Result<Section> only_section(const PieceRecord& record) {
  if (!record.sections.empty()) return record.sections.front();
  Error error{.code = "no_section",
              .message = "piece " + record.piece.piece + " has no section",
              .hint = "read one in with: sherdwright section FILE --in STORE --piece " + record.piece.piece};
  error.where.id = record.piece.piece;
  return fail(std::move(error));
}

/// What the whole takes from its two pieces.
std::map<std::string, std::string> values_of(const PieceRecord& upper, const PieceRecord& lower) {
  const Piece& rim = upper.piece;
  const Piece& base = lower.piece;
  std::map<std::string, std::string> values;
  const auto put = [&](const char* column, const std::string& value) {
    if (!value.empty()) values[column] = value;
  };
  put("vessel", rim.vessel.empty() ? base.vessel : rim.vessel);
  put("record", rim.record);
  put("form", rim.form.empty() ? base.form : rim.form);
  put("technique", rim.technique.empty() ? base.technique : rim.technique);
  if (rim.stance) put("stance", std::string(word(*rim.stance)));
  if (rim.diameter_certainty) put("diameter_certainty", std::string(word(*rim.diameter_certainty)));
  const auto number = [&](const char* column, CellType type, const auto& value, auto member) {
    if (value) put(column, value_text(type, (*value).*member));
  };
  number("rim_diameter_mm", CellType::length, rim.rim_diameter, &Length::hundredths_mm);
  number("rim_least_mm", CellType::length, rim.rim_least, &Length::hundredths_mm);
  number("rim_most_mm", CellType::length, rim.rim_most, &Length::hundredths_mm);
  number("rim_percent", CellType::percent, rim.rim_percent, &Percent::tenths);
  number("base_diameter_mm", CellType::length, base.base_diameter, &Length::hundredths_mm);
  number("base_percent", CellType::percent, base.base_percent, &Percent::tenths);
  put("source", "joined");
  put("notes", "joined of " + rim.piece + " and " + base.piece);
  return values;
}

std::vector<OutlineEntry> raised(const std::vector<OutlinePoint>& side, double by) {
  std::vector<OutlineEntry> out = entries_of(side);
  for (OutlineEntry& point : out) point.z_mm += by;
  return out;
}

/// A joined piece may be joined anew; any other keeps its section.
Result<void> name_is_free(const Session& session, const std::string& name) {
  SHERD_TRY(const std::vector<PieceRecord> pieces, read_pieces(session));
  for (const PieceRecord& one : pieces) {
    if (one.piece.piece != name || one.piece.source == SectionSource::joined) continue;
    return fail("name_taken", "there is a piece " + name + " that was not joined of others",
                "give the whole a name of its own");
  }
  return {};
}

}  // namespace

Result<JoinPiecesResponse> join_pieces(const JoinPiecesRequest& request, Environment& environment, Progress&) {
  if (request.upper == request.lower)
    return fail(ErrorKind::usage, "bad_request", "a piece is not joined with itself", "name two pieces of one vessel");
  vessel::JoinSettings settings;
  SHERD_TRY(settings.height_mm, number_option("height", request.height));
  SHERD_TRY(Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const PieceRecord upper, read_piece(session, request.upper));
  SHERD_TRY(const PieceRecord lower, read_piece(session, request.lower));
  SHERD_TRY(const Section above, only_section(upper));
  SHERD_TRY(const Section below, only_section(lower));
  SHERD_TRY(vessel::JoinedSections joined, vessel::join_sections(above, below, settings));
  joined.section.name.clear();
  SectionToKeep keep;
  keep.piece = request.as;
  keep.change = request.change;
  keep.who = request.who;
  keep.label = "join " + upper.piece.piece + " and " + lower.piece.piece + " as " + request.as;
  keep.values = values_of(upper, lower);
  keep.sections = {joined.section};
  JoinPiecesResponse response;
  response.piece = request.as;
  response.overlapped = joined.overlapped;
  response.overlap_mm = joined.overlap_mm;
  response.conjectured_mm = joined.conjectured_mm;
  response.gap_rms_mm = joined.gap_rms_mm;
  response.section = view_of(joined.section, Piece{}, true);
  response.upper_outer = raised(above.outer, joined.upper_up_mm);
  response.upper_inner = raised(above.inner, joined.upper_up_mm);
  response.lower_outer = raised(below.outer, joined.lower_up_mm);
  response.lower_inner = raised(below.inner, joined.lower_up_mm);
  if (!request.dry_run) {
    SHERD_CHECK(name_is_free(session, request.as));
    SHERD_CHECK(sound(response.section));
    SHERD_TRY(response.seq, write_sections(session, keep, environment));
    response.kept = true;
  }
  SHERD_TRY(response.provenance, session.provenance(environment));
  return response;
}

}  // namespace sherd::desk
