#include "desk/recording/apply_edits.h"

#include <algorithm>
#include <charconv>

#include "base/text.h"
#include "desk/frame/change_uid.h"
#include "desk/frame/session.h"
#include "desk/recording/edit_steps.h"
#include "desk/recording/row_state.h"

namespace sherd::desk {

namespace {

constexpr std::size_t kMostSteps = 20'000;

std::unexpected<Error> no_change(std::string column, std::string message, std::string hint) {
  Error error{.kind = ErrorKind::usage, .code = "bad_request", .message = std::move(message), .hint = std::move(hint)};
  error.where.column = std::move(column);
  return fail(std::move(error));
}

Result<void> check_request(const EditsRequest& request) {
  if (!is_uid(request.change)) {
    return no_change("change", std::string(kNoUid), "make them at random; the same edit sent again has the same ones");
  }
  if (request.steps.empty()) return no_change("steps", "the change has no steps", "give at least one");
  if (request.steps.size() > kMostSteps) {
    return no_change("steps", "the change has " + grouped(static_cast<long long>(request.steps.size())) + " steps",
                     "make several of it, of at most " + grouped(kMostSteps));
  }
  return {};
}

ChangeNote note_of(const EditsRequest& request, const Environment& environment) {
  ChangeNote note = change_note(environment, request.label.empty() ? "edit" : request.label);
  note.uid = request.change;
  note.who = by_hand(request.who, note.who);
  return note;
}

/// The state of a row as of a change, or now.
Result<RowState> state_of(const Session& session, const EditSteps::Touched& touched,
                          const std::optional<std::int64_t>& as_of) {
  if (touched.kind == "sheet") return sheet_state(session.site);
  const Kind kind = *kind_named(touched.kind);
  RowState gone{touched.kind, touched.uid, true, {}, {}};
  SHERD_TRY(const Table table,
            session.store->read({session.site.code, kind, state_columns(kind), as_of, {{"uid", touched.uid}}}));
  return table.rows() == 0 ? gone : row_state(table, 0);
}

Result<void> put_rows(const Session& session, const std::vector<EditSteps::Touched>& touched,
                      const std::optional<std::int64_t>& as_of, EditsResponse& response) {
  for (const EditSteps::Touched& one : touched) {
    SHERD_TRY(RowState state, state_of(session, one, as_of));
    response.rows.push_back(std::move(state));
  }
  return {};
}

void refuse(EditsResponse& response) {
  if (!response.problems.empty()) {
    const EditProblem& first = response.problems.front();
    const auto more = static_cast<long long>(response.problems.size()) - 1;
    Error error{.code = "edit_refused",
                .message = first.message + (more > 0 ? ", and " + counted(more, "problem") + " more" : "") +
                           "; nothing was written",
                .hint = first.hint};
    error.where.column = first.column;
    response.errors.push_back(std::move(error));
    return;
  }
  const EditConflict& first = response.conflicts.front();
  Error error{
      .code = "conflict", .message = {}, .hint = "look at both and decide; then send it with seen as it is now"};
  error.message = first.column.empty() ? "the row was altered by someone else meanwhile; nothing was written"
                                       : first.column + " is \"" + first.now + "\" by now, not \"" + first.seen +
                                             "\"; nothing was written";
  error.where.column = first.column;
  error.where.id = first.id.empty() ? first.row : first.id;
  response.errors.push_back(std::move(error));
}

/// The rows that a change made before touched: those that the steps name, and those that it added.
Result<std::vector<EditSteps::Touched>> touched_before(const Session& session, const EditsRequest& request,
                                                       std::int64_t seq) {
  std::vector<EditSteps::Touched> touched;
  const auto put = [&](const std::string& kind, const std::string& uid) {
    const bool known =
        std::ranges::any_of(touched, [&](const EditSteps::Touched& row) { return row.kind == kind && row.uid == uid; });
    if (!known) touched.push_back({kind, uid, false});
  };
  for (const EditStep& step : request.steps) {
    const auto kind = kind_named(step.kind);
    if (step.kind == "sheet") put("sheet", "sheet");
    if (!kind) continue;
    if (step.act != "add") {
      RecordRows rows(*session.store, session.site.code);
      SHERD_TRY(const auto found, rows.named(*kind, step.row));
      for (const FoundRow& row : found) put(step.kind, row.uid);
      if (found.empty() && !step.row.starts_with('@')) put(step.kind, step.row);
      continue;
    }
    SHERD_TRY(const Table table, session.store->read({session.site.code, *kind, {"uid", "changed"}, seq}));
    for (std::size_t row = 0; row < table.rows(); ++row) {
      if (table.find("changed")->integer(row) == seq) put(step.kind, std::string(table.find("uid")->text(row)));
    }
  }
  return touched;
}

/// What the change with this uid has done, since it is there already.
Result<EditsResponse> told_again(const Session& session, const EditsRequest& request, const Error& done,
                                 EditsResponse response) {
  std::int64_t seq = 0;
  const std::string& id = done.where.id;
  std::from_chars(id.data(), id.data() + id.size(), seq);
  response.seq = seq;
  SHERD_TRY(const auto touched, touched_before(session, request, seq));
  SHERD_CHECK(put_rows(session, touched, seq, response));
  return response;
}

}  // namespace

Result<EditsResponse> apply_steps(const EditsRequest& request, bool overwrite, Environment& environment) {
  SHERD_CHECK(check_request(request));
  SHERD_TRY(Session session, open_session(environment, request.store, request.site));
  EditsResponse response;
  response.change = request.change;
  response.provenance.version = environment.version;
  response.warnings = session.store->warnings();
  auto writing = session.store->begin(note_of(request, environment));
  if (!writing && writing.error().code == "already_done")
    return told_again(session, request, writing.error(), std::move(response));
  if (!writing) return std::unexpected(std::move(writing).error());
  SHERD_TRY(const auto sites, session.store->sites());  // the sheet as it is now that no one else writes
  for (const Site& site : sites) {
    if (site.code == session.site.code) session.site = site;
  }
  EditSteps steps(session, **writing, overwrite, response);
  SHERD_CHECK(steps.run(request.steps));
  if (!response.problems.empty() || !response.conflicts.empty()) {
    refuse(response);
    return response;
  }
  if (steps.wrote()) {
    SHERD_TRY(const Change change, (*writing)->commit());
    response.seq = change.seq;
  } else {
    writing->reset();
  }
  SHERD_CHECK(put_rows(session, steps.touched(), std::nullopt, response));
  response.provenance.inputs.push_back(session.site.code + "@" + (response.seq ? request.change : "unchanged"));
  return response;
}

Result<EditsResponse> apply_edits(const EditsRequest& request, Environment& environment, Progress&) {
  return apply_steps(request, false, environment);
}

}  // namespace sherd::desk
