#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct HistoryRequest {
  std::string store;
  std::optional<std::int64_t> since, change;

  template <class V>
  static void fields(V& v) {
    v.field("store", &HistoryRequest::store, argument("the store"));
    v.field("since", &HistoryRequest::since, option("changes after this number"));
    v.field("change", &HistoryRequest::change, option("one change, with every value it altered"));
  }
};

struct HistoryValue {
  std::string table, id, column, was, now;

  template <class V>
  static void fields(V& v) {
    v.field("table", &HistoryValue::table);
    v.field("id", &HistoryValue::id);
    v.field("column", &HistoryValue::column);
    v.field("was", &HistoryValue::was);
    v.field("now", &HistoryValue::now);
  }
};

struct HistoryChange {
  std::int64_t seq = 0;
  std::string uid, at, who, origin, command;
  std::optional<std::int64_t> undoes;
  std::int64_t rows_added = 0, rows_changed = 0, rows_removed = 0;
  std::vector<HistoryValue> values;

  template <class V>
  static void fields(V& v) {
    v.field("seq", &HistoryChange::seq);
    v.field("uid", &HistoryChange::uid);
    v.field("at", &HistoryChange::at);
    v.field("who", &HistoryChange::who);
    v.field("origin", &HistoryChange::origin);
    v.field("command", &HistoryChange::command);
    v.field("undoes", &HistoryChange::undoes);
    v.field("rows_added", &HistoryChange::rows_added);
    v.field("rows_changed", &HistoryChange::rows_changed);
    v.field("rows_removed", &HistoryChange::rows_removed);
    v.field("values", &HistoryChange::values);
  }
};

struct HistoryResponse : Reply {
  std::vector<HistoryChange> changes;

  template <class V>
  static void fields(V& v) {
    v.field("changes", &HistoryResponse::changes);
  }
};

/// Who changed what, oldest first. Error `no_change`.
Result<HistoryResponse> show_history(const HistoryRequest& request, Environment& environment, Progress& progress);

struct UndoRequest {
  std::string store, uid, who, only_of;
  std::optional<std::int64_t> change;

  template <class V>
  static void fields(V& v) {
    v.field("store", &UndoRequest::store, argument("the store"));
    v.field("change", &UndoRequest::change, argument("the change's number, from history"));
    v.field("uid", &UndoRequest::uid,
            option("32 hexadecimal digits, made by whoever asks: the same undoing is not done twice"));
    v.field("who", &UndoRequest::who, option("who takes it back, where it is not the one who runs the program"));
    v.field("only_of", &UndoRequest::only_of, option("refuse it where the change was made by anybody else"));
  }
};

/// Takes one change back by a new one; taking that one back in turn makes the first again. Errors: `no_change`,
/// `later_change`, `still_used`, `not_yours`.
Result<HistoryResponse> undo_change(const UndoRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
