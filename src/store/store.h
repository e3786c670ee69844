#pragma once

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "model/site.h"
#include "model/table.h"
#include "store/away.h"
#include "store/whole.h"

/// What the rest of the program knows of the store. Rows are versions; nothing is overwritten. A change is one
/// transaction: it is seen whole or not at all, and a commit that returned is on the disk.
///
/// A Store is one connection and is used by one thread at a time; another thread opens its own. While a change is made
/// on it, its reads see what the change has done so far, and no second change can begin (`writing_open`).
///
/// Errors that any call may return: `store_busy`, `damaged_store`, `disk_full`, `read_only`, `cannot_open`,
/// `disk_error`, `connection_lost` (to a server; nothing uncommitted was kept), `no_site` (with "did you mean"), and
/// `store_error` (our own fault). Reads and `begin` connect again by themselves where a connection was lost.
namespace sherd {

/// A store's address as it may be shown, noted and kept: without a password. Paths of files are as they are.
std::string shown_address(const std::string& address);

/// Who did a change, and how. `uid` is made by the client: a change whose uid is already there is not made twice.
struct ChangeNote {
  std::string uid;
  std::string who;
  std::string at;       ///< ISO 8601 UTC, for people; it orders nothing
  std::string origin;   ///< the program and version, or the device
  std::string command;  ///< "import sherds sherds.csv"
};

/// A change as history tells it. `seq` follows the order of commits.
struct Change {
  std::int64_t seq = 0;
  std::string uid, at, who, origin, command;
  std::optional<std::int64_t> undoes;
  std::int64_t rows_added = 0, rows_changed = 0, rows_removed = 0;
};

/// One value that a change altered. `was`, `now`: as the outside writes them, "" where there was none. Where a whole
/// row was added, `now` is its id and `was` ""; where it was removed, the other way round.
struct Difference {
  Kind kind{};
  std::string id;      ///< the row's key ("grey-1"; "102, 101"), or its uid where the kind has no key
  std::string column;  ///< "" where the whole row was added or removed
  std::string was, now;
};

/// Compare-and-set of one field: applied only where the row still has what the user saw.
struct Edit {
  std::string uid;     ///< the row's
  std::string column;  ///< canonical name
  std::string seen;    ///< as cell_text gives it
  std::string value;
};

/// Rows whose `column` has this value, as cell_text gives it; "" is blank.
struct Having {
  std::string column;
  std::string value;
};

/// Columns of one kind; `columns` empty means all of them. "uid" and "extra" may be asked for like any other column
/// (`extra`: a JSON object of the columns that the record does not know), and so may "changed" (the seq of the change
/// that gave the row its values of today). Rows come in the order in which they were added, whatever was edited since.
/// Error `unknown_column`.
struct ReadRequest {
  std::string site;
  Kind kind{};
  std::vector<std::string> columns;
  std::optional<std::int64_t> as_of = {};  ///< the state after that change; the newest where absent
  std::vector<Having> having = {};         ///< all of them hold; "uid" may stand here, too
  std::int64_t changed_after = 0;          ///< only rows that a change after this one gave their values; 0: all
};

/// Sums over the rows of one kind, one row for each value of `by`, in the order of those values.
struct SumRequest {
  std::string site;
  Kind kind{};
  std::string by;
  std::vector<std::string> sums;  ///< columns that hold numbers
};

/// A file of a result kept in the store, such as an issued list.
struct Document {
  std::string name;  ///< "spot-dates/3"
  std::string mime;
  std::string bytes;
};

/// One change being made. Nothing is visible to others before `commit`; without it everything is rolled back. After a
/// refusal such as `conflict` the change goes on; after a failure of the database every later call, `commit` included,
/// returns that error. From `begin` on no one else writes: what must be unique is looked up after it.
class Writing {
 public:
  virtual ~Writing() = default;
  /// Adds rows (canonical columns, and `extra`); blank `record` of sherds must have been filled by the caller. Keys and
  /// names referred to are not checked here. Errors: `not_text` (NUL, or not UTF-8), `too_many_rows`.
  virtual Result<void> insert(const std::string& site, const Table& rows) = 0;
  /// Errors: `conflict` (the row has another value by now; message and hint give both), `not_found`, `unknown_column`,
  /// `required`, `not_in_list`, `not_a_number`, `number_too_large`, `not_text`. The same value again makes no version.
  virtual Result<void> edit(const std::string& site, Kind kind, const Edit& edit) = 0;
  /// Error `not_found`. Rows that refer to this one are not looked for here.
  virtual Result<void> remove(const std::string& site, Kind kind, const std::string& uid) = 0;
  /// `count` record numbers that no one else gets; the first of them. Above every number that any line has or had; in a
  /// copy that was taken away, out of its block. Error `lease_used_up` there.
  virtual Result<std::int64_t> lease_records(const std::string& site, std::int64_t count) = 0;
  /// Kept under its name; another one under the same name takes its place, and undo brings the former back.
  virtual Result<void> put_document(const std::string& site, const Document& document) = 0;
  /// That the file with this SHA-256 was read as that kind. Taken back by undo like the rows.
  virtual Result<void> note_import(const std::string& site, Kind kind, const std::string& sha256) = 0;
  /// Makes the site, or changes its sheet.
  virtual Result<void> put_site(const Site& site) = 0;
  /// What a change of a copy did, once more, as far as nothing here stands against it; the rest becomes open conflicts.
  /// For `merge`.
  virtual Result<void> replay(const CopyChange& change) = 0;
  /// Settles an open conflict. Errors: `no_conflict`; `conflict` where it is not as it was seen; `bad_take`; those of
  /// `edit` for the value.
  virtual Result<void> settle(const Settlement& settlement) = 0;
  /// Where the answer of a server is lost on the way, the change is looked for by its uid: what was kept is told as
  /// kept. Error `connection_lost` otherwise; where its hint says so, it is not known, and the change with the same uid
  /// may be tried again.
  virtual Result<Change> commit() = 0;
};

class Store {
 public:
  virtual ~Store() = default;

  virtual Result<std::vector<Site>> sites() = 0;
  virtual Result<Table> read(const ReadRequest& request) = 0;
  virtual Result<std::int64_t> count_rows(const std::string& site, Kind kind) = 0;
  /// Columns `by`, "rows", one for each of `sums` (null where all of its cells are blank) and "changed" (the seq of the
  /// newest change of any of the rows). Error `unknown_column`.
  virtual Result<Table> sums(const SumRequest& request) = 0;

  /// Waits up to a few seconds for another writer; then `store_busy`. Where a change with this uid is there
  /// already, `already_done` with its seq in the error's where.id.
  virtual Result<std::unique_ptr<Writing>> begin(const ChangeNote& note) = 0;
  /// Takes a change back by a new one, field by field. Refused with `later_change` where a later change touched the
  /// same field (the message names it, where.id is its seq), with `still_used` where a key that would go is referred
  /// to, with `no_longer_there` where a row would again refer to a key that has gone since; `no_change`,
  /// `nothing_to_undo`.
  virtual Result<Change> undo(std::int64_t seq, const ChangeNote& note) = 0;

  /// Newest last.
  virtual Result<std::vector<Change>> changes(std::int64_t after_seq) = 0;
  virtual Result<std::vector<Difference>> differences(std::int64_t seq) = 0;
  virtual Result<std::optional<Change>> newest_change() = 0;

  virtual Result<bool> was_imported(const std::string& site, Kind kind, const std::string& sha256) = 0;
  virtual Result<std::optional<Document>> document(const std::string& site, const std::string& name) = 0;
  virtual Result<std::vector<std::string>> document_names(const std::string& site, std::string_view prefix) = 0;

  /// A consistent copy while others read and write, in one file; verified after writing. Refuses an existing file
  /// (`store_exists`).
  virtual Result<void> backup(const std::string& file) = 0;
  /// Damage that the database's own checks find, and each change whose rows are not those that it wrote, one sentence
  /// each; empty when sound. Reads the whole store.
  virtual Result<std::vector<std::string>> verify() = 0;
  /// Copies that are taken away and come back.
  virtual Away& away() = 0;
  /// All that it holds, with its history.
  virtual Whole& whole() = 0;
  /// What a user should know of how the store was found when it was opened, one sentence each.
  virtual std::vector<std::string> warnings() const { return {}; }
};

/// Tells when a store has a new change, whoever made it: this process, another one, another machine. One for a process
/// is enough; any number of threads may wait on it. Nothing is missed: who has seen the changes up to `seq` asks for
/// what is above it, and reads them with Store::changes.
class ChangeFeed {
 public:
  virtual ~ChangeFeed() = default;
  /// Waits until the newest change is above `after_seq`, the time is over, or the feed is closed; the newest seq known
  /// then. A server that does not answer is waited for, like silence.
  virtual std::int64_t wait(std::int64_t after_seq, std::chrono::milliseconds at_most) = 0;
  /// Why changes of others do not come in just now; nothing while they do.
  virtual std::optional<Error> trouble() const = 0;
  /// Every wait returns at once, now and from now on.
  virtual void close() = 0;
};

}  // namespace sherd
