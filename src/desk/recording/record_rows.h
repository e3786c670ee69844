#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "base/result.h"
#include "desk/recording/typed_values.h"
#include "store/store.h"

namespace sherd::desk {

struct FoundRow {
  std::string uid;
  std::int64_t changed = 0;
  TypedRow row;
};

/// Rows of one kind that name a row of another by one of their columns.
struct Namers {
  Kind kind{};
  std::string column;
  std::vector<std::string> uids, names;  ///< names: their keys, or the uid where the kind has no key
};

/// "2 sherd lines (5001, 5002) and 1 rim"
std::string namers_text(const std::vector<Namers>& namers);

/// What a change needs to look up in the record while it is made: single rows, by the store's own indexes.
class RecordRows {
 public:
  RecordRows(Store& store, std::string site) : store_(store), site_(std::move(site)) {}

  Result<std::vector<FoundRow>> having(Kind kind, std::vector<Having> conditions);
  Result<std::optional<FoundRow>> by_uid(Kind kind, const std::string& uid);
  /// By uid, or else by key: "grey-1"; "102, 101" for a key of several columns, those at its end may be left out. More
  /// than one where the key does not tell them apart.
  Result<std::vector<FoundRow>> named(Kind kind, const std::string& row);
  /// Another row than `uid` with the key of this one.
  Result<bool> key_is_taken(const TypedRow& row, const std::string& uid);

  /// Whether a row of that kind has this key; what was found is remembered.
  Result<bool> knows(Kind kind, const std::string& key);
  /// After rows of that kind came, went or were renamed.
  void forget(Kind kind) { known_.erase(kind); }
  /// `did you mean "grey-1"?`, or "": also after many, which would take their number times the record's.
  Result<std::string> near(Kind kind, const std::string& key);
  /// Who names the row of that kind with that key, kind by kind.
  Result<std::vector<Namers>> who_names(Kind kind, const std::string& key);
  /// The change by which the column of a row got the value that it has now.
  Result<std::optional<Change>> author(Kind kind, const FoundRow& row, const std::string& column);

 private:
  Store& store_;
  std::string site_;
  std::map<Kind, std::set<std::string>> known_;
  int compared_ = 0;
};

}  // namespace sherd::desk
