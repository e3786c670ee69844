#include <fmt/format.h>

#include <string>

#include "store/cell.h"
#include "store/merge_replay.h"

namespace sherd::store {

void MergeWriter::set(long long site, const Versioned& table, const std::string& uid, const Table& row) {
  writing_.set_row(site, table, uid, row);
  note_records(site, table, row);
}

void MergeWriter::add(long long site, const Versioned& table, const Table& rows) {
  if (rows.rows() == 0) return;
  const Column& uids = *rows.find("uid");
  NewVersions versions{table.table, site, change().seq, {}, [&](std::size_t row) { return uids.text(row); },
                       rows.rows()};
  for (const StoredColumn& column : table.columns) {
    versions.columns.emplace_back(column.stored, rows.find(column.name));
  }
  dialect().add_versions(versions);
  note_records(site, table, rows);
}

void MergeWriter::note_records(long long site, const Versioned& table, const Table& rows) {
  if (table.kind == Kind::sherds) writing_.note_records(site, *rows.find("record"));
}

void MergeWriter::undoes(const std::string& uid) {
  if (uid.empty()) return;
  Table found;
  found.add("seq", CellType::count);
  dialect().fetch("select seq from change where uid = :t1", std::vector<std::string>{uid}, found);
  if (found.rows() > 0) writing_.set_undoes(found.columns()[0].integer(0));
}

std::int64_t MergeWriter::next_number() {
  Table newest;
  newest.add("number", CellType::count);
  dialect().fetch("select coalesce(max(number), 0) from merge_conflict", {}, newest);
  return newest.columns()[0].integer(0) + 1;
}

void MergeWriter::put(long long site, ConflictRow conflict) {
  if (conflict.number == 0) {
    const auto there = current_version(dialect(), merge_conflicts(), site, conflict.uid);
    conflict.number = there ? there->find("number")->integer(0) : next_number();
  }
  set(site, merge_conflicts(), conflict.uid, conflict_cells(conflict));
}

void MergeWriter::revive(const ConflictRow& cause, long long site, const Versioned& table) {
  const RowHistory history(dialect(), table, site, cause.row);
  if (history.current()) return;
  Table row = history.newest();
  for (ConflictRow& one : conflicts_of_row(dialect(), site, cause.row)) {
    if (one.sort == "gone" || one.sort == "named") drop(site, one);
    if (one.state != kWaiting) continue;
    const StoredColumn* column = table.column(one.column);
    const std::string here = column == nullptr ? std::string() : cell_text(*row.find(one.column), 0);
    const auto value = column == nullptr ? fail("unknown_column", one.column) : parse_cell(*column, one.there);
    if (value && here == one.base) {
      copy_cell(*column, *value, *row.find(one.column));
      drop(site, one);
    } else {
      one.state = here == one.there ? kAgreed : kOpen;
      put(site, one);
    }
  }
  set(site, table, cause.row, row);
  name_what_is_gone(cause, site, table, row);
}

void MergeWriter::name_what_is_gone(const ConflictRow& cause, long long site, const Versioned& table,
                                    const Table& row) {
  for (const StoredColumn& column : table.columns) {
    if (column.spec == nullptr || !column.spec->refers) continue;
    const Versioned& named = versioned(*column.spec->refers);
    const std::string value = cell_text(*row.find(column.name), 0);
    const StoredColumn& key = named.columns.front();
    if (value.empty() || !row_holding(dialect(), named, site, key, value).empty()) continue;
    const std::string uid = last_holder(dialect(), named, site, value).uid;
    if (uid.empty() || RowHistory(dialect(), named, site, uid).current()) continue;
    ConflictRow gone = cause;
    gone.uid = conflict_uid(uid, {}, cause.copy);
    gone.number = 0;
    gone.table = named.table;
    gone.row = uid;
    gone.column = gone.base = {};
    gone.sort = "named";
    gone.state = kOpen;
    gone.there = fmt::format("{} {}", table.one, row_name(table, row, 0));
    put(site, gone);
  }
}

namespace {

std::unexpected<Error> no_conflict(std::int64_t number) {
  return fail("no_conflict", fmt::format("there is no open conflict {}", number),
              "\"sherdwright conflicts STORE\" lists them with their numbers");
}

std::unexpected<Error> has_changed(const OpenConflict& shown, const std::string& seen) {
  Error error{ErrorKind::data,
              "conflict",
              fmt::format("conflict {}: here it is \"{}\" by now, not \"{}\"", shown.number, shown.here, seen),
              {},
              "Look at both values again and decide"};
  error.where.id = shown.row;
  error.where.column = shown.column;
  return fail(std::move(error));
}

class Settling {
 public:
  Settling(SqlWriting& writing, const Settlement& wanted) : to_(writing), wanted_(wanted) {}

  Result<void> run() {
    const auto found = load_conflicts(to_.dialect(), fmt::format("number = {}", wanted_.number));
    if (found.empty()) return no_conflict(wanted_.number);
    const auto shown = list_conflicts(to_.dialect(), wanted_.number);
    if (shown.empty()) return no_conflict(wanted_.number);
    if (wanted_.seen && *wanted_.seen != shown.front().here) return has_changed(shown.front(), *wanted_.seen);
    return settle(found.front(), shown.front());
  }

 private:
  Result<void> settle(const ConflictRow& one, const OpenConflict& shown) {
    const Versioned& table = *versioned_named(one.table);
    const bool whole = one.sort == "removed" || one.sort == "gone" || one.sort == "named";
    if (whole && wanted_.take == Settlement::Take::value) {
      return fail(ErrorKind::usage, "bad_take", fmt::format("conflict {} is about a whole row", one.number),
                  "Take here or there");
    }
    to_.drop(one.site, one);
    if (wanted_.take == Settlement::Take::here) {
      forget_waiting(one);
      return {};
    }
    if (one.sort == "removed") {
      to_.end(one.site, table, one.row);
      return {};
    }
    if (whole) {
      to_.revive(one, one.site, table);
      return {};
    }
    const bool value = wanted_.take == Settlement::Take::value;
    if (one.sort == "same_key" && !value) return {};
    return set_field(one, table, value ? wanted_.value : shown.there);
  }

  Result<void> set_field(const ConflictRow& one, const Versioned& table, const std::string& value) {
    to_.revive(one, one.site, table);
    const auto row = current_version(to_.dialect(), table, one.site, one.row);
    const StoredColumn* column = table.column(one.column);
    if (!row || column == nullptr) return fail(ErrorKind::internal, "store_error", "the row of a conflict is missing");
    const std::string now = cell_text(*row->find(one.column), 0);
    return to_.set_cell(one.site, table, *column, {one.row, one.column, now, value});
  }

  /// What a copy wanted of a row that stays gone.
  void forget_waiting(const ConflictRow& one) {
    if (one.sort != "gone") return;
    for (const ConflictRow& other : conflicts_of_row(to_.dialect(), one.site, one.row)) {
      if (other.copy == one.copy && other.state == kWaiting) to_.drop(one.site, other);
    }
  }

  MergeWriter to_;
  const Settlement& wanted_;
};

}  // namespace

Result<void> settle_conflict(SqlWriting& writing, const Settlement& settlement) {
  return Settling(writing, settlement).run();
}

}  // namespace sherd::store
