#pragma once

#include <memory>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "store/away.h"
#include "store/merge_rows.h"
#include "store/row_changes.h"
#include "store/sql_writing.h"

namespace sherd {

/// A change of a copy, to be made once more in the store that the copy was taken from.
struct CopyChange {
  CopyNote copy;
  std::shared_ptr<store::Knowledge> knowledge;
  bool last = false;   ///< nothing of this copy comes after it
  std::string undoes;  ///< the uid of the change that it takes back; "" for none
  std::vector<TableChanges> tables;
};

}  // namespace sherd

namespace sherd::store {

/// Writes rows of versions for merging, within a change that is being made.
class MergeWriter {
 public:
  explicit MergeWriter(SqlWriting& writing) : writing_(writing) {}

  Dialect& dialect() { return writing_.dialect(); }
  const Change& change() const { return writing_.change_; }
  void set(long long site, const Versioned& table, const std::string& uid, const Table& row);
  bool end(long long site, const Versioned& table, const std::string& uid) {
    return writing_.end_row(site, table, uid);
  }
  /// Rows that are not there yet, with the uids that they have in `rows`.
  void add(long long site, const Versioned& table, const Table& rows);
  void undoes(const std::string& uid);
  Result<void> set_cell(long long site, const Versioned& table, const StoredColumn& column, const Edit& edit) {
    return writing_.set_cell(site, table, column, edit);
  }

  /// Keeps it under its uid; with a number of its own where it has none yet.
  void put(long long site, ConflictRow conflict);
  void drop(long long site, const ConflictRow& conflict) { end(site, merge_conflicts(), conflict.uid); }

  std::int64_t next_number();
  void put_bytes(const std::string& bytes) { writing_.put_bytes(bytes); }

  std::int64_t seq_of(const std::string& uid);
  /// Brings a row back that is gone, as it was.
  void revive(long long site, const Versioned& table, const std::string& uid);
  /// What has been waiting for a row that is there again goes in where the row is as the copy saw it; elsewhere it
  /// becomes an open conflict.
  void let_in(long long site, const Versioned& table, const std::string& uid);

 private:
  void note_records(long long site, const Versioned& table, const Table& rows);
  SqlWriting& writing_;
};

/// Makes a change of a copy once more.
class Replay {
 public:
  Replay(SqlWriting& writing, const CopyChange& change)
      : to_(writing), copy_(change), knowledge_(*change.knowledge), dialect_(to_.dialect()) {}

  /// Throws what the database throws.
  Result<void> run();

 private:
  struct Row;
  struct Removal {
    const Versioned* table;
    long long site;
    std::string uid;
    const Table* was;
    std::size_t at;
  };

  long long site_of(const std::string& code);
  std::string resolved(long long site, const Versioned& table, const std::string& uid);

  void replay_rows(long long site, const Versioned& table, const TableChanges& changes);
  void add_rows(long long site, const Versioned& table, const TableChanges& changes,
                const std::vector<std::size_t>& which);
  /// The uid of the row that took the key first, where the copy does not know that one.
  std::string twin_of(long long site, const Versioned& table, const TableChanges& changes, std::size_t row);
  void bring_back(long long site, const Versioned& table, const std::string& uid, const Table& former,
                  std::size_t row_former, const Table& now, std::size_t row_now);
  /// The copy knew of that change, or it is this store's own.
  bool saw(std::int64_t head) const;
  void edit_row(long long site, const Versioned& table, const std::string& uid, const Table* was, std::size_t row_was,
                const Table& now, std::size_t row_now);
  void edit_field(Row& row, const StoredColumn& column, const std::string& was, const Table& now, std::size_t row_now);
  void edit_own(Row& row, const ConflictRow& own, const std::string& here, const std::string& now);
  void settle_gone(Row& row);
  void remove_row(const Removal& removal);
  bool may_go(const Removal& removal, const RowHistory& history, const std::vector<ConflictRow>& conflicts);
  void replay_documents(long long site, const TableChanges& changes);
  void replay_plain(long long site, const Versioned& table, const TableChanges& changes);

  bool overruled(const RowHistory& history, const StoredColumn& column, const std::string& here,
                 const std::string& seen) const;
  ConflictRow conflict(const Versioned& table, const std::string& row, const std::string& column, std::string_view sort,
                       std::string_view state, std::string base, std::string there) const;

  /// What can be told only when all of the copy is here: once a merge, with its last change.
  void look_over();

  MergeWriter to_;
  const CopyChange& copy_;
  Knowledge& knowledge_;
  Dialect& dialect_;
  std::vector<Removal> removals_;
};

/// Carries out what the user decided. Errors: as Writing::settle. Throws what the database throws.
Result<void> settle_conflict(SqlWriting& writing, const Settlement& settlement);
/// What is to be settled, by number; only that one where `number` is given. Throws what the database throws.
std::vector<OpenConflict> list_conflicts(Dialect& dialect, std::optional<std::int64_t> number = {});

}  // namespace sherd::store
