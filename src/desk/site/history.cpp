#include "desk/site/history.h"

#include "desk/frame/session.h"
#include "model/kind_spec.h"

namespace sherd::desk {

namespace {

HistoryChange shown(const Change& change) {
  return {change.seq,
          change.uid,
          change.at,
          change.who,
          change.origin,
          change.command,
          change.undoes,
          change.rows_added,
          change.rows_changed,
          change.rows_removed,
          {}};
}

Result<void> check_made_by(Store& store, std::int64_t change, const std::string& who) {
  SHERD_TRY(const std::vector<Change> changes, store.changes(change - 1));
  if (changes.empty() || changes.front().seq != change || changes.front().who == who) return {};
  return fail("not_yours", "change " + std::to_string(change) + " was made by " + changes.front().who,
              "ask them, or an editor, to take it back");
}

}  // namespace

Result<HistoryResponse> show_history(const HistoryRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const auto store, environment.open_store(request.store));
  HistoryResponse response;
  response.provenance.version = environment.version;
  const std::int64_t after = request.change ? *request.change - 1 : request.since.value_or(0);
  SHERD_TRY(const std::vector<Change> changes, store->changes(after));
  for (const Change& change : changes) {
    if (request.change && change.seq != *request.change) continue;
    response.changes.push_back(shown(change));
  }
  if (!request.change) return response;
  if (response.changes.empty())
    return fail("no_change", "there is no change " + std::to_string(*request.change), "history lists them");
  SHERD_TRY(const auto differences, store->differences(*request.change));
  for (const Difference& difference : differences) {
    response.changes.front().values.push_back(
        {kind_spec(difference.kind).name, difference.id, difference.column, difference.was, difference.now});
  }
  return response;
}

Result<HistoryResponse> undo_change(const UndoRequest& request, Environment& environment, Progress&) {
  if (!request.change)
    return fail(ErrorKind::usage, "no_number", "undo needs the number of a change", "history lists them");
  SHERD_TRY(const auto store, environment.open_store(request.store));
  ChangeNote note = change_note(environment, "undo " + std::to_string(*request.change));
  if (!request.uid.empty()) note.uid = request.uid;
  if (!request.who.empty() && request.who != note.who) note.who = request.who + " (" + note.who + ")";
  if (!request.only_of.empty()) SHERD_CHECK(check_made_by(*store, *request.change, request.only_of));
  HistoryResponse response;
  response.provenance.version = environment.version;
  const auto change = store->undo(*request.change, note);
  if (change) {
    response.changes.push_back(shown(*change));
    return response;
  }
  if (change.error().code != "already_done") return std::unexpected(change.error());
  SHERD_TRY(const auto changes, store->changes(0));  // told as it was done
  for (const Change& done : changes) {
    if (done.uid == note.uid) response.changes.push_back(shown(done));
  }
  return response;
}

}  // namespace sherd::desk
