#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

/// One step of a change. `row`: the row's uid, its key ("grey-1", record "5012", "102, 101"), or "@" and the name that
/// an `add` before it in the same change gave its row by `as`.
struct EditStep {
  std::string act, kind, row, as, column, value;
  std::optional<std::string> seen;
  std::map<std::string, std::string> values;
  std::vector<std::string> with;

  template <class V>
  static void fields(V& v) {
    v.field("do", &EditStep::act, required_option("add, set or remove"));
    v.field("kind", &EditStep::kind, required_option("sherds, rims, contexts ..., or sheet for the project sheet"));
    v.field("row", &EditStep::row, option("set, remove: its uid, its key, or @ and the name given by as"));
    v.field("as", &EditStep::as, option("add: a name for the row, for later steps of this change"));
    v.field("values", &EditStep::values, option("add: column and value, as typed"));
    v.field("column", &EditStep::column, option("set: the column"));
    v.field("value", &EditStep::value, option("set: the new value, as typed; blank takes the value away"));
    v.field("seen", &EditStep::seen,
            option("set: the value that was seen, as rows gives it; remove: the row's changed, where that matters"));
    v.field("with", &EditStep::with, option("remove: kinds whose rows that name this one go with it"));
  }
};

struct EditsRequest {
  static constexpr bool kPageOnly = true;
  std::string store, site, change, label, who;
  std::vector<EditStep> steps;

  template <class V>
  static void fields(V& v) {
    v.field("store", &EditsRequest::store, argument("the store"));
    v.field("change", &EditsRequest::change,
            required_option("32 hexadecimal digits, made by whoever asks: the same change is not made twice"));
    v.field("label", &EditsRequest::label, option("what is done, for the history"));
    v.field("who", &EditsRequest::who, option("who records, where it is not the one who runs the program"));
    v.field("steps", &EditsRequest::steps, required_option("what is done, in this order"));
    v.field("site", &EditsRequest::site, option("the site, where the store holds several"));
  }
};

/// A row as it stands now. `values`: its columns as text, without the blank ones.
struct RowState {
  std::string kind, uid;
  bool removed = false;
  std::optional<std::int64_t> changed;  ///< the change that gave it its values of today
  std::map<std::string, std::string> values;

  template <class V>
  static void fields(V& v) {
    v.field("kind", &RowState::kind);
    v.field("uid", &RowState::uid);
    v.field("removed", &RowState::removed);
    v.field("changed", &RowState::changed);
    v.field("values", &RowState::values);
  }
};

/// What a step meant by what was typed, and what is still missing.
struct EditNote {
  std::int64_t step = 0;
  std::string column, text, message;

  template <class V>
  static void fields(V& v) {
    v.field("step", &EditNote::step);
    v.field("column", &EditNote::column);
    v.field("text", &EditNote::text);
    v.field("message", &EditNote::message);
  }
};

/// Someone else's value stands where another one was seen. Of a row that was to be removed, `column` is "" and `seen`
/// and `now` are changes.
struct EditConflict {
  std::int64_t step = 0;
  std::string kind, row, id, column, seen, now, value, who, at;

  template <class V>
  static void fields(V& v) {
    v.field("step", &EditConflict::step);
    v.field("kind", &EditConflict::kind);
    v.field("row", &EditConflict::row);
    v.field("id", &EditConflict::id);
    v.field("column", &EditConflict::column);
    v.field("seen", &EditConflict::seen);
    v.field("now", &EditConflict::now);
    v.field("value", &EditConflict::value);
    v.field("who", &EditConflict::who);
    v.field("at", &EditConflict::at);
  }
};

/// Why a step cannot be done. `text`: what was typed.
struct EditProblem {
  std::int64_t step = 0;
  std::string column, text, code, message, hint;

  template <class V>
  static void fields(V& v) {
    v.field("step", &EditProblem::step);
    v.field("column", &EditProblem::column);
    v.field("text", &EditProblem::text);
    v.field("code", &EditProblem::code);
    v.field("message", &EditProblem::message);
    v.field("hint", &EditProblem::hint);
  }
};

/// `seq` is nothing where nothing was written: a refusal, or all stood so already.
struct EditsResponse : Reply {
  std::optional<std::int64_t> seq;
  std::string change;
  std::vector<RowState> rows;
  std::vector<EditNote> notes;
  std::vector<EditConflict> conflicts;
  std::vector<EditProblem> problems;

  template <class V>
  static void fields(V& v) {
    v.field("seq", &EditsResponse::seq);
    v.field("change", &EditsResponse::change);
    v.field("rows", &EditsResponse::rows);
    v.field("notes", &EditsResponse::notes);
    v.field("conflicts", &EditsResponse::conflicts);
    v.field("problems", &EditsResponse::problems);
  }
};

/// One change, whole or not at all; it is on the disk when this returns. A change that was made before is told as it
/// was made. In the response: `edit_refused` with all problems of every step, `conflict` with all conflicts (problems
/// go first). Errors: `bad_request` for what is no change at all; `lease_used_up`; those of the store.
Result<EditsResponse> apply_edits(const EditsRequest& request, Environment& environment, Progress& progress);

/// How commands make a change: `seen` may be left out, and then any value may be overwritten.
Result<EditsResponse> apply_steps(const EditsRequest& request, bool overwrite, Environment& environment);

}  // namespace sherd::desk
