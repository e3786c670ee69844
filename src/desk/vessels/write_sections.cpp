#include <algorithm>
#include <charconv>
#include <set>

#include "base/text.h"
#include "desk/frame/change_uid.h"
#include "desk/recording/apply_edits.h"
#include "desk/recording/edit_steps.h"
#include "desk/vessels/keep_section.h"
#include "desk/vessels/piece_rows.h"
#include "model/rows.h"

/// A piece and its points as one change.
namespace sherd::desk {

namespace {

/// Adds the piece, or alters the columns that are given.
std::vector<EditStep> piece_steps(const SectionToKeep& keep, bool there) {
  if (!there) {
    EditStep add{.act = "add", .kind = "pieces", .values = keep.values};
    add.values["piece"] = keep.piece;
    return {add};
  }
  std::vector<EditStep> steps;
  for (const auto& [column, value] : keep.values) {
    if (column == "piece") continue;
    steps.push_back({.act = "set", .kind = "pieces", .row = keep.piece, .column = column, .value = value});
  }
  return steps;
}

Result<void> replace_points(const Session& session, Writing& writing, const SectionToKeep& keep) {
  std::set<std::string, std::less<>> names;
  for (const Section& section : keep.sections) names.insert(section.name);
  SHERD_TRY(const Table old,
            session.store->read({session.site.code, Kind::sections, {"uid", "section"}, {}, {{"piece", keep.piece}}}));
  for (std::size_t row = 0; row < old.rows(); ++row) {
    if (!names.contains(old.find("section")->text(row))) continue;
    SHERD_CHECK(writing.remove(session.site.code, Kind::sections, std::string(old.find("uid")->text(row))));
  }
  const auto points = points_of(keep.piece, keep.sections);
  return writing.insert(session.site.code, table_from(Kind::sections, points));
}

Error refused_by(const EditsResponse& response) {
  const EditProblem& first = response.problems.front();
  Error error{.code = "edit_refused", .message = first.message + "; nothing was kept", .where = {}, .hint = first.hint};
  error.where.column = first.column;
  return error;
}

Result<void> write_piece(Session& session, Writing& writing, const SectionToKeep& keep) {
  SHERD_TRY(const Table there,
            session.store->read({session.site.code, Kind::pieces, {"piece"}, {}, {{"piece", keep.piece}}}));
  EditsResponse edits;
  EditSteps steps(session, writing, true, edits);
  SHERD_CHECK(steps.run(piece_steps(keep, there.rows() > 0)));
  if (!edits.problems.empty()) return fail(refused_by(edits));
  return replace_points(session, writing, keep);
}

std::int64_t seq_in(const Error& done) {
  std::int64_t seq = 0;
  std::from_chars(done.where.id.data(), done.where.id.data() + done.where.id.size(), seq);
  return seq;
}

}  // namespace

Result<SectionChange> begin_section_change(Session& session, Environment& environment, const ChangeOfSections& given) {
  ChangeNote note = change_note(environment, given.label);
  if (!given.change.empty()) {
    if (!is_uid(given.change)) return fail(ErrorKind::usage, "bad_request", std::string(kNoUid));
    note.uid = given.change;
  }
  note.who = by_hand(given.who, note.who);
  SectionChange change;
  auto writing = session.store->begin(note);
  if (!writing && writing.error().code == "already_done") {
    change.done = seq_in(writing.error());
    return change;
  }
  if (!writing) return fail(writing.error());
  change.writing = std::move(*writing);
  return change;
}

Result<std::int64_t> write_sections(Session& session, const std::vector<SectionToKeep>& pieces,
                                    const ChangeOfSections& note, Environment& environment) {
  SHERD_TRY(SectionChange begun, begin_section_change(session, environment, note));
  if (begun.done) return *begun.done;
  for (const SectionToKeep& keep : pieces) SHERD_CHECK(write_piece(session, *begun.writing, keep));
  SHERD_TRY(const Change change, begun.writing->commit());
  return change.seq;
}

}  // namespace sherd::desk
