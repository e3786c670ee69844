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

struct ConflictsRequest {
  std::string store, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ConflictsRequest::store, argument("the store"));
    v.field("site", &ConflictsRequest::site, option("of this site alone"));
  }
};

/// Both sides of what merging has left open. `sort`: value, removed, gone, named, renamed, same_key.
struct ConflictEntry {
  std::int64_t id = 0;
  std::string site, table, row, column, sort, base, here, there, here_who, here_at, there_who, there_at, copy;

  template <class V>
  static void fields(V& v) {
    v.field("id", &ConflictEntry::id);
    v.field("site", &ConflictEntry::site);
    v.field("table", &ConflictEntry::table);
    v.field("row", &ConflictEntry::row);
    v.field("column", &ConflictEntry::column);
    v.field("sort", &ConflictEntry::sort);
    v.field("base", &ConflictEntry::base);
    v.field("here", &ConflictEntry::here);
    v.field("there", &ConflictEntry::there);
    v.field("here_who", &ConflictEntry::here_who);
    v.field("here_at", &ConflictEntry::here_at);
    v.field("there_who", &ConflictEntry::there_who);
    v.field("there_at", &ConflictEntry::there_at);
    v.field("copy", &ConflictEntry::copy);
  }
};
ConflictEntry conflict_entry(const OpenConflict& conflict);

struct ConflictsResponse : Reply {
  std::vector<ConflictEntry> conflicts;

  template <class V>
  static void fields(V& v) {
    v.field("conflicts", &ConflictsResponse::conflicts);
  }
};

/// What merging has left open, by number. Error `no_site`.
Result<ConflictsResponse> list_conflicts(const ConflictsRequest& request, Environment& environment, Progress& progress);

struct SettleRequest {
  std::string store;
  std::optional<std::int64_t> id;
  std::string take, seen;

  template <class V>
  static void fields(V& v) {
    v.field("store", &SettleRequest::store, argument("the store"));
    v.field("id", &SettleRequest::id, argument("the conflict's number, from conflicts"));
    v.field("take", &SettleRequest::take,
            required_option("here, there, or the value that is right (=here and =there for those words)"));
    v.field("seen", &SettleRequest::seen, option("refuse where it is not this value here by now"));
  }
};

/// `conflict`: as it was settled; `left`: how many are still open.
struct SettleResponse : Reply {
  ConflictEntry conflict;
  std::int64_t change = 0, left = 0;

  template <class V>
  static void fields(V& v) {
    v.field("conflict", &SettleResponse::conflict);
    v.field("change", &SettleResponse::change);
    v.field("left", &SettleResponse::left);
  }
};

/// Settles one conflict by a change like any other. Errors: `no_conflict`, `conflict`, `bad_take`, and those of the
/// value.
Result<SettleResponse> settle_conflict(const SettleRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
