#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>

#include "store/dialect.h"
#include "store/row_uid.h"
#include "store/store.h"
#include "store/versioned.h"

namespace sherd::store {

/// One change on a connection. Where the database itself fails in the middle of something, the change is lost as a
/// whole: every later call and the commit are refused. A refusal of ours (`conflict`, `not_found`) leaves it usable.
class SqlWriting final : public Writing {
 public:
  /// `again`: where the connection turns out to be lost, once more on a new one.
  static Result<std::unique_ptr<SqlWriting>> begin(std::shared_ptr<Connection> connection, const ChangeNote& note,
                                                   std::optional<std::int64_t> undoes, bool again = true);
  ~SqlWriting() override;
  SqlWriting(const SqlWriting&) = delete;
  SqlWriting& operator=(const SqlWriting&) = delete;

  Result<void> insert(const std::string& site, const Table& rows) override;
  Result<void> edit(const std::string& site, Kind kind, const Edit& edit) override;
  Result<void> remove(const std::string& site, Kind kind, const std::string& uid) override;
  Result<std::int64_t> lease_records(const std::string& site, std::int64_t count) override;
  Result<void> put_document(const std::string& site, const Document& document) override;
  Result<void> note_import(const std::string& site, Kind kind, const std::string& sha256) override;
  Result<void> put_site(const Site& site) override;
  Result<void> replay(const CopyChange& change) override;
  Result<void> settle(const Settlement& settlement) override;
  Result<Change> commit() override;

  /// Takes the change `undone`, which is there, back within this one. Errors as Store::undo.
  Result<void> take_back(std::int64_t undone);

 private:
  friend class MergeWriter;
  Dialect& dialect() { return *connection_->dialect; }
  SqlWriting(std::shared_ptr<Connection> connection, Change change);

  /// Runs `work`, unless the change is over or broken; what the database throws breaks it.
  template <class Work>
  std::invoke_result_t<Work> doing(Work work) {
    if (!open_) return fail(ErrorKind::internal, "change_over", "the change is over already");
    if (broken_) return std::unexpected(*broken_);
    try {
      return work();
    } catch (const std::exception& error) {
      broken_ = dialect().classify(error);
      return std::unexpected(*broken_);
    }
  }
  Result<void> add_rows(long long site, const Versioned& table, const Table& rows);
  Result<void> set_cell(long long site, const Versioned& table, const StoredColumn& column, const Edit& edit);
  /// `row`: the columns of `table`, one row.
  void set_row(long long site, const Versioned& table, const std::string& uid, const Table& row);
  /// Ends the current version of a row. False where there is none.
  bool end_row(long long site, const Versioned& table, const std::string& uid);
  void raise_counter(long long site, long long next);
  /// That lines have these numbers: none of them is given again.
  void note_records(long long site, const Column& records);
  /// Keeps the bytes of a document, for the row that is to name them.
  void put_bytes(const std::string& bytes);
  void set_undoes(std::int64_t seq);
  void count_rows();
  Result<Change> look_for_it(Error lost);

  std::shared_ptr<Connection> connection_;
  Change change_;
  RowUids uids_;
  std::int64_t rows_named_ = 0;
  bool open_ = true;
  std::optional<Error> broken_;
};

std::string import_uid(Kind kind, const std::string& sha256);
/// For calls that need the connection while a change is being made on it.
Error writing_open();

}  // namespace sherd::store
