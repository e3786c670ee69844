#include "store/sql_writing.h"

#include <fmt/format.h>
#include <soci/soci.h>

#include "store/cell.h"
#include "store/merge_replay.h"
#include "store/sql_store.h"
#include "store/sql_undo.h"

namespace sherd::store {

namespace {

/// Gives the change its place in the order of changes; the transaction is open.
Result<Change> new_change(soci::session& sql, const ChangeNote& note, std::optional<std::int64_t> undoes) {
  long long known = 0;
  sql << "select seq from change where uid = :u", soci::use(note.uid), soci::into(known);
  if (sql.got_data()) {
    Error done{ErrorKind::data,
               "already_done",
               fmt::format("this change was made already: it is change {}", known),
               {},
               "Nothing needs doing"};
    done.where.id = std::to_string(known);
    return fail(std::move(done));
  }
  long long seq = 0;
  sql << "select coalesce(max(seq), 0) + 1 from change", soci::into(seq);
  if (seq >= RowUids::kMostChanges) return fail("store_full", "the store holds as many changes as it can");
  const long long undone = undoes.value_or(0);
  soci::indicator has_undone = undoes ? soci::i_ok : soci::i_null;
  sql << "insert into change (seq, uid, at, who, origin, command, undoes, rows_added, rows_changed, rows_removed) "
         "values (:s, :u, :at, :who, :origin, :command, :undoes, 0, 0, 0)",
      soci::use(seq), soci::use(note.uid), soci::use(note.at), soci::use(note.who), soci::use(note.origin),
      soci::use(note.command), soci::use(undone, has_undone);
  return Change{seq, note.uid, note.at, note.who, note.origin, note.command, undoes, 0, 0, 0};
}

}  // namespace

SqlWriting::SqlWriting(std::shared_ptr<Connection> connection, Change change)
    : connection_(std::move(connection)), change_(std::move(change)), uids_(change_.seq, change_.uid) {
  connection_->writing = true;
}

SqlWriting::~SqlWriting() {
  if (!open_) return;
  connection_->writing = false;
  roll_back(dialect());
}

Result<std::unique_ptr<SqlWriting>> SqlWriting::begin(std::shared_ptr<Connection> connection, const ChangeNote& given,
                                                      std::optional<std::int64_t> undoes, bool again) {
  if (connection->writing) return fail(writing_open());
  if (given.uid.empty()) return fail(ErrorKind::internal, "no_uid", "a change came to the store without a uid");
  SHERD_CHECK(check_text("uid", given.uid));
  const ChangeNote note{given.uid, readable(given.who), readable(given.at), readable(given.origin),
                        readable(given.command)};
  Dialect& dialect = *connection->dialect;
  bool begun = false;
  auto change = guarded(dialect, [&]() -> Result<Change> {
    dialect.begin_change();
    begun = true;
    return new_change(dialect.sql(), note, undoes);
  });
  const bool lost = !change && change.error().code == kConnectionLost;
  if (lost && again && dialect.revive()) return begin(std::move(connection), given, undoes, false);
  if (change) return std::unique_ptr<SqlWriting>(new SqlWriting(std::move(connection), std::move(*change)));
  if (begun) roll_back(dialect);
  return std::unexpected(std::move(change).error());
}

Result<void> SqlWriting::replay(const CopyChange& change) {
  return doing([&]() -> Result<void> { return Replay(*this, change).run(); });
}

Result<void> SqlWriting::settle(const Settlement& settlement) {
  return doing([&]() -> Result<void> { return settle_conflict(*this, settlement); });
}

void SqlWriting::set_undoes(std::int64_t seq) {
  change_.undoes = seq;
  const long long own = change_.seq, undone = seq;
  dialect().sql() << "update change set undoes = :u where seq = :s", soci::use(undone), soci::use(own);
}

Result<void> SqlWriting::take_back(std::int64_t undone) {
  return doing([&]() -> Result<void> { return Undo(dialect(), undone, change_.seq).run(); });
}

Result<Change> SqlWriting::commit() {
  bool sent = false;
  auto done = doing([&]() -> Result<Change> {
    count_rows();
    soci::session& sql = dialect().sql();
    const long long seq = change_.seq, added = change_.rows_added, changed = change_.rows_changed,
                    removed = change_.rows_removed;
    sql << "update change set rows_added = :a, rows_changed = :c, rows_removed = :r where seq = :s", soci::use(added),
        soci::use(changed), soci::use(removed), soci::use(seq);
    sent = true;
    dialect().commit_change(seq);
    open_ = false;
    connection_->writing = false;
    return change_;
  });
  if (!done && sent && done.error().code == kConnectionLost) return look_for_it(done.error());
  return done;
}

/// The server may have kept the change and its answer got lost: whoever made it is told which.
Result<Change> SqlWriting::look_for_it(Error lost) {
  open_ = false;
  connection_->writing = false;
  bool known = false;
  auto found = guarded(dialect(), [&]() -> Result<Change> {
    if (!dialect().revive()) return std::unexpected(lost);
    // Once this is a writer, the former connection writes no more: the change is there, or it never will be.
    dialect().begin_change();
    const std::vector<Change> at_seq = load_changes(dialect(), change_.seq - 1, true);
    dialect().sql() << "rollback";
    known = true;
    if (at_seq.empty() || at_seq.front().uid != change_.uid) return std::unexpected(lost);
    return at_seq.front();
  });
  if (found) return found;
  if (!known) {
    roll_back(dialect());
    lost.message += " while the change was being kept: it may be there or not";
    lost.hint = "Look at the history when the server answers; the same change is not made twice";
  }
  return std::unexpected(lost);
}

void SqlWriting::count_rows() {
  std::string query;
  for (const Versioned& table : versioned_tables()) {
    if (!table.kind || !dialect().touched(table.table)) continue;
    const std::string from = fmt::format("(select count(*) from {} where ", table.table);
    query += fmt::format(
        "{0}select {1}from_change = {2}), {1}to_change = {2}), {1}to_change = {2} and uid in (select "
        "uid from {3} where from_change = {2}))",
        query.empty() ? "" : " union all ", from, change_.seq, table.table);
  }
  if (query.empty()) return;
  Table counts;
  for (const char* name : {"begun", "ended", "both"}) counts.add(name, CellType::count);
  dialect().fetch(query, {}, counts);
  for (std::size_t row = 0; row < counts.rows(); ++row) {
    const std::int64_t both = counts.columns()[2].integer(row);
    change_.rows_added += counts.columns()[0].integer(row) - both;
    change_.rows_changed += both;
    change_.rows_removed += counts.columns()[1].integer(row) - both;
  }
}

Error writing_open() {
  return {ErrorKind::internal, "writing_open", "a change is being made on this connection already", {}, {}};
}

}  // namespace sherd::store
