#include "store/sql_writing.h"

#include <fmt/format.h>
#include <soci/soci.h>

#include <algorithm>
#include <limits>

#include "store/cell.h"
#include "store/merge_replay.h"
#include "store/sql_store.h"
#include "store/sql_undo.h"

namespace sherd::store {

namespace {

// Labels longer than this are not our numbers; they do not push the counter.
constexpr std::size_t kMostDigits = 9;

/// The highest number among labels; of those that are not above `at_most`.
std::int64_t highest_number(const Column& records, std::int64_t at_most) {
  std::int64_t highest = 0;
  for (const std::string& word : records.words()) {
    if (word.empty() || word.size() > kMostDigits) continue;
    if (!std::ranges::all_of(word, [](char c) { return c >= '0' && c <= '9'; })) continue;
    if (const std::int64_t number = std::stoll(word); number <= at_most) highest = std::max(highest, number);
  }
  return highest;
}

Result<void> check_rows(const Versioned& table, const Table& rows) {
  for (std::size_t i = 0; i < rows.names().size(); ++i) {
    const std::string& name = rows.names()[i];
    const Column& cells = rows.columns()[i];
    const StoredColumn* column = table.column(name);
    if (column == nullptr || is_text(column->type) != is_text(cells.type()) || cells.size() != rows.rows()) {
      return fail(ErrorKind::internal, "bad_table", fmt::format("column \"{}\" does not fit {}", name, table.table));
    }
    for (const std::string& word : cells.words()) SHERD_CHECK(check_text(name, word));
  }
  if (table.kind != Kind::sherds || rows.rows() == 0) return {};
  const Column* records = rows.find("record");
  const bool named = records != nullptr && std::ranges::find(records->codes(), 0U) == records->codes().end();
  if (named) return {};
  return fail(ErrorKind::internal, "no_record", "a line of pottery came to the store without a record number");
}

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

Result<void> SqlWriting::insert(const std::string& site, const Table& rows) {
  return doing([&]() -> Result<void> {
    const Versioned& table = versioned(rows.kind());
    SHERD_CHECK(check_rows(table, rows));
    SHERD_TRY(const long long id, site_id(dialect(), site));
    return add_rows(id, table, rows);
  });
}

Result<void> SqlWriting::add_rows(long long site, const Versioned& table, const Table& rows) {
  const auto count = static_cast<std::int64_t>(rows.rows());
  if (rows_named_ + count > RowUids::kMostRows) {
    return fail("too_many_rows", fmt::format("a change may add at most {} rows", RowUids::kMostRows),
                "Make several changes of it");
  }
  NewVersions versions{table.table, site, change_.seq, {}, {}, rows.rows()};
  for (std::size_t i = 0; i < rows.names().size(); ++i) {
    versions.columns.emplace_back(table.column(rows.names()[i])->stored, &rows.columns()[i]);
  }
  versions.uid = [this](std::size_t row) { return uids_.at(rows_named_ + static_cast<std::int64_t>(row)); };
  dialect().add_versions(versions);
  rows_named_ += count;
  if (const Column* records = rows.find("record"); records != nullptr && table.kind == Kind::sherds) {
    note_records(site, *records);
  }
  return {};
}

Result<void> SqlWriting::edit(const std::string& site, Kind kind, const Edit& edit) {
  return doing([&]() -> Result<void> {
    const Versioned& table = versioned(kind);
    const StoredColumn* column = table.column(edit.column);
    if (column == nullptr) {
      return fail("unknown_column", fmt::format("{} have no column \"{}\"", table.table, edit.column));
    }
    SHERD_TRY(const long long id, site_id(dialect(), site));
    return set_cell(id, table, *column, edit);
  });
}

Result<void> SqlWriting::set_cell(long long site, const Versioned& table, const StoredColumn& column,
                                  const Edit& edit) {
  const std::vector<std::string> uid{edit.uid};
  Table row;
  if (check_text("uid", edit.uid)) {
    row = fetch_versions(dialect(), table, fmt::format("site = {} and uid = :t1 and to_change is null", site), uid);
  }
  if (row.rows() == 0) {
    Error gone{
        ErrorKind::data, "not_found", fmt::format("the {} is no longer there", table.one), {}, "Read the record again"};
    gone.where.id = edit.uid;
    return fail(std::move(gone));
  }
  Column& cells = *row.find(column.name);
  const std::string name = row_name(table, row, 0);
  const std::string now = cell_text(cells, 0);
  auto value = parse_cell(column, edit.value);
  if (value && now == outside_text(column, *value) && now == edit.seen) return {};
  if (now != edit.seen) {
    Error conflict{
        ErrorKind::data,
        "conflict",
        fmt::format("{} of {} {} is \"{}\" by now, not \"{}\"", column.name, table.one, name, now, edit.seen),
        {},
        fmt::format("Yours was \"{}\": look at both and decide", edit.value)};
    conflict.where.id = name;
    conflict.where.column = column.name;
    return fail(std::move(conflict));
  }
  if (!value) {
    value.error().where.id = name;
    return std::unexpected(value.error());
  }
  copy_cell(column, *value, cells);
  set_row(site, table, edit.uid, row);
  if (table.kind == Kind::sherds && column.name == "record") note_records(site, cells);
  return {};
}

void SqlWriting::set_row(long long site, const Versioned& table, const std::string& uid, const Table& row) {
  end_row(site, table, uid);
  NewVersions version{table.table, site, change_.seq, {}, [&](std::size_t) { return std::string_view(uid); }, 1};
  for (const StoredColumn& column : table.columns) version.columns.emplace_back(column.stored, row.find(column.name));
  dialect().add_versions(version);
}

bool SqlWriting::end_row(long long site, const Versioned& table, const std::string& uid) {
  soci::session& sql = dialect().sql();
  const std::string current = "site = :s and uid = :u and to_change is null";
  long long from = 0;
  sql << fmt::format("select from_change from {} where {}", table.table, current), soci::use(site), soci::use(uid),
      soci::into(from);
  if (!sql.got_data()) return false;
  // A version that this very change made was never seen by anyone: it goes without a trace.
  const bool own = from == change_.seq;
  own ? dialect().dropped_from(table.table) : dialect().ended_in(table.table);
  sql << (own ? fmt::format("delete from {} where {}", table.table, current)
              : fmt::format("update {} set to_change = {} where {}", table.table, change_.seq, current)),
      soci::use(site), soci::use(uid);
  return true;
}

Result<void> SqlWriting::remove(const std::string& site, Kind kind, const std::string& uid) {
  return doing([&]() -> Result<void> {
    SHERD_TRY(const long long id, site_id(dialect(), site));
    if (check_text("uid", uid) && end_row(id, versioned(kind), uid)) return {};
    Error gone{ErrorKind::data,
               "not_found",
               fmt::format("the {} is no longer there", versioned(kind).one),
               {},
               "Read the record again"};
    gone.where.id = uid;
    return fail(std::move(gone));
  });
}

void SqlWriting::note_records(long long site, const Column& records) {
  raise_counter(site, highest_number(records, std::numeric_limits<std::int64_t>::max()) + 1);
  long long last = 0;
  soci::session& sql = dialect().sql();
  sql << "select last from record_lease where site = :s", soci::use(site), soci::into(last);
  if (!sql.got_data()) return;
  const long long next = highest_number(records, last) + 1;
  sql << "update record_lease set next = :n where site = :s and next < :m", soci::use(next), soci::use(site),
      soci::use(next);
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
