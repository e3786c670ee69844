#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/fields.h"
#include "store/store.h"

namespace sherd::desk {

/// A change as those who listen are told of it, without its values.
struct ChangeNews {
  std::int64_t seq = 0;
  std::string uid, at, who, command;
  std::optional<std::int64_t> undoes;
  std::int64_t rows_added = 0, rows_changed = 0, rows_removed = 0;

  static ChangeNews of(const Change& change) {
    return {change.seq,    change.uid,        change.at,           change.who,         change.command,
            change.undoes, change.rows_added, change.rows_changed, change.rows_removed};
  }

  template <class V>
  static void fields(V& v) {
    v.field("seq", &ChangeNews::seq);
    v.field("uid", &ChangeNews::uid);
    v.field("at", &ChangeNews::at);
    v.field("who", &ChangeNews::who);
    v.field("command", &ChangeNews::command);
    v.field("undoes", &ChangeNews::undoes);
    v.field("rows_added", &ChangeNews::rows_added);
    v.field("rows_changed", &ChangeNews::rows_changed);
    v.field("rows_removed", &ChangeNews::rows_removed);
  }
};

}  // namespace sherd::desk
