#pragma once

#include <cstdint>
#include <exception>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.h"
#include "model/table.h"
#include "store/raw.h"
#include "store/written_sums.h"

namespace soci {
class session;
}

namespace sherd::store {

constexpr std::string_view kConnectionLost = "connection_lost";

/// First versions of rows, all of one site, or versions that an undo puts back.
struct NewVersions {
  std::string_view table;
  std::int64_t site = 0;
  std::int64_t change = 0;                                     ///< from_change of all of them
  std::vector<std::pair<std::string, const Column*>> columns;  ///< stored name, cells
  std::function<std::string_view(std::size_t row)> uid;        ///< a view that holds until the next call
  std::size_t rows = 0;
};

/// One connection to a database, and what differs from one kind of database to another. All statements are SQL that
/// SQLite and PostgreSQL share, but for what stands here. Members throw what the database library throws (derived from
/// std::exception) unless they return a Result; `guarded` turns that into an Error. One thread at a time.
class Dialect {
 public:
  virtual ~Dialect() = default;

  virtual soci::session& sql() = 0;
  /// Statements of a migration, with this database's words for $int, $text, $bytes and $strict.
  virtual std::string ddl(std::string_view text) const = 0;
  /// Opens a transaction that no other writer can be in: from here on the order of changes is that of commits.
  void begin_change();
  /// Notes the hashes of what the change wrote, commits it, and wakes whoever waits for changes.
  void commit_change(std::int64_t seq);
  void add_versions(const NewVersions& rows);
  /// To be called in a change that has deleted versions which it had added itself.
  void dropped_from(std::string_view table) { written_.dropped_from(table); }
  /// To be called in a change that has ended versions.
  void ended_in(std::string_view table) { written_.ended_in(table); }
  /// Whether the open change has written to a table.
  bool touched(const std::string& table) const { return written_.touched(table); }
  /// To be called in a change that has set the next record number of a site.
  void counter_set(std::int64_t site) { written_.counter_set(site); }
  /// Opens a transaction that only reads, and sees one state until it is rolled back.
  virtual void begin_reading() = 0;
  /// Runs a query and appends its columns to those of `into`, by position. `texts` are the values of :t1, :t2 ...
  virtual void fetch(const std::string& query, std::span<const std::string> texts, Table& into) = 0;
  /// At most 1 MB each.
  virtual void put_chunk(const std::string& sha256, std::int64_t ordinal, std::string_view bytes) = 0;
  virtual void append_chunk(const std::string& sha256, std::int64_t ordinal, std::string& to) = 0;
  /// All rows of a table, in no order.
  virtual void scan(const RawTable& table, const std::function<void(RawRow)>& row) = 0;
  /// One at a time; nothing else may be done on the connection before it is finished or gone.
  virtual std::unique_ptr<RawWriter> writer(const RawTable& table) = 0;
  virtual Error classify(const std::exception& error) = 0;
  /// Connects again after `connection_lost`; whatever was open on the old connection is gone. False where that is not
  /// possible, or there is no connection to lose.
  virtual bool revive() { return false; }
  /// Whether somebody else may go on with the connection: it is there, nothing is open on it, and it is of that kind.
  virtual bool at_rest() { return false; }
  virtual Result<void> backup(const std::string& file) = 0;
  /// What the database's own checks find, one sentence each.
  virtual Result<std::vector<std::string>> verify() = 0;
  virtual std::vector<std::string> warnings() const = 0;

 private:
  virtual void begin_writing() = 0;
  virtual void commit_writing(std::int64_t seq) = 0;
  virtual void put_versions(const NewVersions& rows) = 0;

  WrittenSums written_;
};

/// What a store and the change being made in it share. When both are done with it the dialect goes to `give_back`,
/// where there is one.
struct Connection {
  explicit Connection(std::unique_ptr<Dialect> with, std::function<void(std::unique_ptr<Dialect>)> back = {})
      : dialect(std::move(with)), give_back(std::move(back)) {}
  ~Connection() {
    if (give_back) give_back(std::move(dialect));
  }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  std::unique_ptr<Dialect> dialect;
  std::function<void(std::unique_ptr<Dialect>)> give_back;
  bool writing = false;
};

/// Runs `work`, which returns a Result; what the database library throws becomes an Error.
template <class Work>
std::invoke_result_t<Work> guarded(Dialect& dialect, Work work) {
  try {
    return work();
  } catch (const std::exception& error) {
    return std::unexpected(dialect.classify(error));
  }
}

/// Ends the open transaction without a trace; false where the database has done so by itself, which is no failure.
bool roll_back(Dialect& dialect);

}  // namespace sherd::store
