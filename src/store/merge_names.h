#pragma once

#include <set>
#include <string>
#include <vector>

#include "store/merge_replay.h"

namespace sherd::store {

/// Raises conflicts about keys: rows that name what is gone or is called something else, and keys that two rows have.
/// Only where neither side knew of the other: what someone left so on one desk is for `check` to tell. Members throw
/// what the database throws.
class NameCheck {
 public:
  /// `cause`: in whose name a conflict is raised.
  NameCheck(MergeWriter& to, Knowledge& knowledge, ConflictRow cause)
      : to_(to), knowledge_(knowledge), cause_(std::move(cause)), dialect_(to.dialect()) {}

  void look_at(long long site, const Versioned& table);
  void look_for_doubles(long long site, const Versioned& table);
  /// To be called after look_at for all tables: what it did not find any more is no conflict any more.
  void close_the_rest(long long site);
  /// A row that has just come back.
  void look_at_revived(long long site, const Versioned& table, const std::string& uid);

 private:
  struct Namer {
    const Versioned& table;
    const std::string& uid;
    const RowHistory& history;
    std::int64_t head;
  };

  void look_at_row(long long site, const Versioned& table, const std::string& uid);
  void look_at_name(long long site, const Versioned& table, const StoredColumn& column, const std::string& uid);
  std::vector<std::int64_t> removals(long long site, const std::string& uid, std::int64_t here);
  bool one_knew(long long site, const Namer& by, std::int64_t gone);
  void raise(long long site, const Versioned& table, const std::string& row, const std::string& column,
             const std::string& sort, const std::string& base, const std::string& there);
  void look_for_doubles_of(long long site, const Versioned& table, const std::string& first);

  std::set<std::string> told_;  ///< uids of conflicts that hold
  MergeWriter& to_;
  Knowledge& knowledge_;
  ConflictRow cause_;
  Dialect& dialect_;
};

}  // namespace sherd::store
