#include "store/merge_replay.h"

#include <fmt/format.h>
#include <soci/soci.h>

#include <algorithm>

#include "store/cell.h"
#include "store/sql_store.h"

namespace sherd::store {

/// One row here that the copy's change speaks of.
struct Replay::Row {
  Row(Dialect& dialect, const Versioned& of, long long in, std::string which)
      : site(in),
        table(of),
        uid(std::move(which)),
        history(dialect, of, in, uid),
        here(history.current()),
        values(history.newest()),
        conflicts(conflicts_of_row(dialect, in, uid)) {}

  long long site;
  const Versioned& table;
  std::string uid;
  RowHistory history;
  bool here;
  Table values;
  std::vector<ConflictRow> conflicts;
  bool altered = false;
};

Result<void> Replay::run() {
  const long long seq = to_.change().seq, base = to_.seq_of(copy_.copy.base_uid);
  dialect_.sql() << "insert into merged_change (change, copy, base) values (:s, :c, :b)", soci::use(seq),
      soci::use(copy_.copy.uid), soci::use(base);
  knowledge_.refresh(dialect_);
  to_.undoes(copy_.undoes);
  for (const TableChanges& changes : copy_.tables) {
    const Versioned* table = versioned_named(changes.table);
    if (table == nullptr)
      return fail(ErrorKind::internal, "store_error", "the copy has a table that is not known here");
    const long long site = site_of(changes.site);
    knowledge_.sites().insert(site);
    if (table == &documents()) {
      replay_documents(site, changes);
    } else if (table == &import_files() || table == &merge_conflicts() || table == &row_aliases()) {
      replay_plain(site, *table, changes);
    } else {
      replay_rows(site, *table, changes);
    }
  }
  for (const Removal& removal : removals_) remove_row(removal);
  if (copy_.last) look_over();
  return {};
}

long long Replay::site_of(const std::string& code) {
  soci::session& sql = dialect_.sql();
  long long id = 0;
  sql << "select id from site where code = :c", soci::use(code), soci::into(id);
  if (sql.got_data()) return id;
  sql << "select coalesce(max(id), 0) + 1 from site", soci::into(id);
  sql << "insert into site (id, code) values (:i, :c)", soci::use(id), soci::use(code);
  return id;
}

std::string Replay::resolved(long long site, const Versioned& table, const std::string& uid) {
  if (!table.kind) return uid;
  const auto alias = current_version(dialect_, row_aliases(), site, uid);
  return alias ? std::string(alias->find("row")->text(0)) : uid;
}

ConflictRow Replay::conflict(const Versioned& table, const std::string& row, const std::string& column,
                             std::string_view sort, std::string_view state, std::string base, std::string there) const {
  ConflictRow made;
  made.uid = conflict_uid(row, column, copy_.copy.uid);
  made.copy = copy_.copy.uid;
  made.device = copy_.copy.name;
  made.table = table.table;
  made.row = row;
  made.column = column;
  made.sort = sort;
  made.state = state;
  made.base = std::move(base);
  made.there = std::move(there);
  const Change& change = to_.change();
  made.change = change.uid;
  made.who = change.who;
  made.at = change.at;
  return made;
}

void Replay::replay_rows(long long site, const Versioned& table, const TableChanges& changes) {
  const auto was_at = rows_by_uid(changes.was);
  const auto now_at = rows_by_uid(changes.now);
  const auto former_at = rows_by_uid(changes.former);
  std::vector<std::size_t> added;
  for (std::size_t row = 0; row < changes.now.rows(); ++row) {
    const std::string_view own = changes.now.find("uid")->text(row);
    const auto was = was_at.find(own);
    const auto former = former_at.find(own);
    if (was == was_at.end() && former == former_at.end()) {
      added.push_back(row);
      continue;
    }
    const std::string uid = resolved(site, table, std::string(own));
    if (was != was_at.end()) {
      edit_row(site, table, uid, &changes.was, was->second, changes.now, row);
    } else {
      bring_back(site, table, uid, changes.former, former->second, changes.now, row);
    }
  }
  add_rows(site, table, changes, added);
  for (std::size_t row = 0; row < changes.was.rows(); ++row) {
    const std::string_view own = changes.was.find("uid")->text(row);
    if (now_at.contains(own)) continue;
    removals_.push_back({&table, site, resolved(site, table, std::string(own)), &changes.was, row});
  }
}

void Replay::add_rows(long long site, const Versioned& table, const TableChanges& changes,
                      const std::vector<std::size_t>& which) {
  Table fresh;
  fresh.add("uid", CellType::text);
  for (const StoredColumn& column : table.columns) fresh.add(column.name, column.type);
  for (const std::size_t row : which) {
    const std::string uid(changes.now.find("uid")->text(row));
    if (const std::string twin = twin_of(site, table, changes, row); !twin.empty()) {
      if (twin != uid) {
        Table alias;
        alias.add("table", CellType::text).push_text(table.table);
        alias.add("row", CellType::text).push_text(twin);
        to_.set(site, row_aliases(), uid, alias);
      }
      edit_row(site, table, twin, nullptr, 0, changes.now, row);
      continue;
    }
    for (std::size_t i = 0; i < fresh.names().size(); ++i) {
      push_cell(fresh.columns()[i], *changes.now.find(fresh.names()[i]), row);
    }
  }
  to_.add(site, table, fresh);
}

std::string Replay::twin_of(long long site, const Versioned& table, const TableChanges& changes, std::size_t row) {
  const std::string uid(changes.now.find("uid")->text(row));
  if (!table.kind) return current_version(dialect_, table, site, uid) ? uid : std::string();
  // By the key that the row has in the copy today: what it was called on the way does not make it another's twin.
  std::string key;
  if (changes.now.find("to_change")->is_null(row)) {
    key = key_text(table, changes.now, row);
  } else {
    const auto latest = rows_by_uid(changes.latest);
    const auto found = latest.find(uid);
    if (found != latest.end()) key = key_text(table, changes.latest, found->second);
  }
  // The oldest, where there are several: whoever entered the others knew of it. One that another copy has removed here
  // since would have been its twin the day before.
  for (const std::string& other : knowledge_.rows_with_key(dialect_, table, site, key)) {
    const RowHistory history(dialect_, table, site, other);
    if (other == uid || knowledge_.known(history.first_begun())) continue;
    if (key_text(table, history.newest(), 0) != key) continue;
    if (history.current() || !saw(history.presence_head(&knowledge_))) return other;
  }
  return {};
}

void Replay::bring_back(long long site, const Versioned& table, const std::string& uid, const Table& former,
                        std::size_t row_former, const Table& now, std::size_t row_now) {
  const RowHistory history(dialect_, table, site, uid);
  const ConflictRow back = conflict(table, uid, {}, "gone", history.current() ? kAgreed : kOpen, kBack, {});
  auto conflicts = conflicts_of_row(dialect_, site, uid);
  const auto own = std::ranges::find_if(
      conflicts, [&](const ConflictRow& one) { return one.copy == copy_.copy.uid && one.sort == "removed"; });
  if (own != conflicts.end()) {
    // It has only taken its own removal back: where someone else has removed the row here, that stands.
    to_.drop(site, *own);
  } else if (history.current() || !saw(history.presence_head(&knowledge_))) {
    to_.put(site, back);
  } else if (history.ever()) {
    to_.revive(site, table, uid);
    for (ConflictRow& other : conflicts) {
      if (other.sort != "removed" || other.state != kAgreed || knowledge_.known(other.from_change)) continue;
      other.state = kOpen;
      to_.put(site, other);
    }
  }
  edit_row(site, table, uid, &former, row_former, now, row_now);
}

bool Replay::saw(std::int64_t head) const { return knowledge_.known(head) || knowledge_.made_in(head).empty(); }

void Replay::edit_row(long long site, const Versioned& table, const std::string& uid, const Table* was,
                      std::size_t row_was, const Table& now, std::size_t row_now) {
  Row row(dialect_, table, site, uid);
  const bool blank = was == nullptr || !row.history.ever();
  for (const StoredColumn& column : table.columns) {
    edit_field(row, column, blank ? std::string() : cell_text(*was->find(column.name), row_was), now, row_now);
  }
  if (row.altered) to_.set(site, table, uid, row.values);
  if (!row.here) settle_gone(row);
}

bool Replay::overruled(const RowHistory& history, const StoredColumn& column, const std::string& here,
                       const std::string& seen) const {
  const std::int64_t head = history.head(column, &knowledge_);
  return knowledge_.known(head) || (knowledge_.made_in(head).empty() && here == seen);
}

void Replay::edit_field(Row& row, const StoredColumn& column, const std::string& was, const Table& now,
                        std::size_t row_now) {
  const Column& cells = *now.find(column.name);
  const std::string value = cell_text(cells, row_now);
  if (value == was) return;
  Column& own_cells = *row.values.find(column.name);
  const std::string here = cell_text(own_cells, 0);
  for (const ConflictRow& own : row.conflicts) {
    const bool same = own.copy == copy_.copy.uid && own.column == column.name && own.sort == "value";
    if (same) return edit_own(row, own, here, value);
  }
  if (!row.here) return to_.put(row.site, conflict(row.table, row.uid, column.name, "value", kWaiting, was, value));
  if (!overruled(row.history, column, here, was)) {
    const std::string_view state = here == value ? kAgreed : kOpen;
    return to_.put(row.site, conflict(row.table, row.uid, column.name, "value", state, was, value));
  }
  if (here == value) return;
  if (is_text(column.type)) {
    own_cells.set_text(0, cells.text(row_now));
  } else {
    own_cells.set_integer(0, cells.integer(row_now));
  }
  row.altered = true;
  // Another copy came to the value that goes, without knowing of it: its word stands against this one.
  for (ConflictRow& other : row.conflicts) {
    const bool loses = other.column == column.name && other.sort == "value" && other.state == kAgreed &&
                       other.there == here && !knowledge_.known(other.from_change);
    if (!loses) continue;
    other.state = kOpen;
    to_.put(row.site, other);
  }
}

/// The copy goes on from a value of its own that is kept in a conflict.
void Replay::edit_own(Row& row, const ConflictRow& own, const std::string& here, const std::string& now) {
  if (now == own.base) return to_.drop(row.site, own);
  std::string_view state = own.state;
  if (row.here) state = here == now ? kAgreed : kOpen;
  ConflictRow next = conflict(row.table, row.uid, own.column, "value", state, own.base, now);
  next.number = own.number;
  to_.put(row.site, next);
}

/// A row that is gone here has one conflict of this copy's as long as something of it waits.
void Replay::settle_gone(Row& row) {
  const ConflictRow gone = conflict(row.table, row.uid, {}, "gone", kOpen, {}, {});
  bool waits = false;
  bool there = false;
  for (const ConflictRow& one : conflicts_of_row(dialect_, row.site, row.uid)) {
    if (one.uid == gone.uid && one.base == kBack) return;
    waits = waits || (one.copy == copy_.copy.uid && one.state == kWaiting);
    there = there || one.uid == gone.uid;
  }
  if (waits) return to_.put(row.site, gone);
  if (there) to_.drop(row.site, gone);
}

void Replay::remove_row(const Removal& removal) {
  const Versioned& table = *removal.table;
  const RowHistory history(dialect_, table, removal.site, removal.uid);
  const auto conflicts = conflicts_of_row(dialect_, removal.site, removal.uid);
  for (const ConflictRow& own : conflicts) {
    // What it wrote before stands beside the row as long as that stays, and waits for it where it is gone.
    if (own.copy == copy_.copy.uid && own.column.empty()) to_.drop(removal.site, own);
  }
  if (!history.current()) {
    to_.put(removal.site, conflict(table, removal.uid, {}, "removed", kAgreed, {}, {}));
    return;
  }
  if (may_go(removal, history, conflicts)) {
    to_.end(removal.site, table, removal.uid);
    return;
  }
  to_.put(removal.site, conflict(table, removal.uid, {}, "removed", kOpen, {}, {}));
}

bool Replay::may_go(const Removal& removal, const RowHistory& history, const std::vector<ConflictRow>& conflicts) {
  if (!saw(history.presence_head(&knowledge_))) return false;
  const Table here = history.newest();
  for (const StoredColumn& column : removal.table->columns) {
    const std::string seen = cell_text(*removal.was->find(column.name), removal.at);
    if (!overruled(history, column, cell_text(*here.find(column.name), 0), seen)) return false;
  }
  return std::ranges::none_of(conflicts, [&](const ConflictRow& one) {
    const bool wants_it = one.sort == "value" || one.sort == "gone";
    return one.copy != copy_.copy.uid && wants_it && !knowledge_.known(one.from_change);
  });
}

}  // namespace sherd::store
