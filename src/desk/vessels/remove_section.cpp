#include "desk/vessels/remove_section.h"

#include <charconv>

#include "base/text.h"
#include "desk/frame/session.h"
#include "desk/vessels/keep_section.h"
#include "desk/vessels/piece_rows.h"

namespace sherd::desk {

namespace {

Error not_there(const PieceRecord& record, const std::string& name) {
  Error error{
      .code = "no_section", .message = "piece " + record.piece.piece + " has no section", .where = {}, .hint = ""};
  if (!name.empty()) error.message += " \"" + shortened(name, 40) + "\"";
  error.where.id = record.piece.piece;
  std::vector<std::string> names;
  for (const Section& one : record.sections) names.push_back(one.name.empty() ? "without a name" : one.name);
  error.hint = names.empty() ? "there is nothing to remove" : "it has: " + join(names, ", ");
  return error;
}

/// The one that is meant: a piece's only section needs no name.
Result<std::string> which(const PieceRecord& record, const std::string& name) {
  if (record.section(name)) return name;
  if (!name.empty() || record.sections.empty()) return fail(not_there(record, name));
  if (record.sections.size() == 1) return record.sections.front().name;
  return fail("several_sections", "piece " + record.piece.piece + " has several sections",
              not_there(record, name).hint + "; say which by its name");
}

}  // namespace

Result<RemoveSectionResponse> remove_section(const RemoveSectionRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(Session session, open_session(environment, request.store, request.site));
  RemoveSectionResponse response;
  auto begun = begin_section_change(
      session, environment,
      {.change = request.change, .who = request.who, .label = "remove section of " + request.piece});
  if (!begun) return fail(begun.error());
  if (begun->done) {
    response.piece = request.piece;
    response.section = request.name;
    response.seq = *begun->done;
    return response;
  }
  SHERD_TRY(const PieceRecord record, read_piece(session, request.piece));
  SHERD_TRY(response.section, which(record, request.name));
  response.piece = record.piece.piece;
  // Points that name the vessel alone are those of its piece where that has none of its own.
  for (const std::vector<Having>& having :
       {std::vector<Having>{{"piece", record.piece.piece}}, {{"vessel", record.piece.vessel}, {"piece", ""}}}) {
    if (response.points > 0 || having.front().value.empty()) continue;
    SHERD_TRY(const Table rows,
              session.store->read({session.site.code, Kind::sections, {"uid", "section"}, {}, having}));
    for (std::size_t row = 0; row < rows.rows(); ++row) {
      if (rows.find("section")->text(row) != response.section) continue;
      SHERD_CHECK(begun->writing->remove(session.site.code, Kind::sections, std::string(rows.find("uid")->text(row))));
      ++response.points;
    }
  }
  SHERD_TRY(const Change change, begun->writing->commit());
  response.seq = change.seq;
  SHERD_TRY(response.provenance, session.provenance(environment));
  return response;
}

}  // namespace sherd::desk
