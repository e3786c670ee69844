#include <fmt/format.h>

#include <string>

#include "store/cell.h"
#include "store/merge_names.h"

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
  if (const std::int64_t seq = uid.empty() ? 0 : seq_of(uid); seq > 0) writing_.set_undoes(seq);
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

std::int64_t MergeWriter::seq_of(const std::string& uid) {
  Table found;
  found.add("seq", CellType::count);
  dialect().fetch("select seq from change where uid = :t1", std::vector<std::string>{uid}, found);
  return found.rows() == 0 ? 0 : found.columns()[0].integer(0);
}

void MergeWriter::revive(long long site, const Versioned& table, const std::string& uid) {
  const RowHistory history(dialect(), table, site, uid);
  if (history.current()) return;
  set(site, table, uid, history.newest());
  for (const ConflictRow& one : conflicts_of_row(dialect(), site, uid)) {
    if (one.sort == "gone" || one.sort == "named") drop(site, one);
  }
}

void MergeWriter::let_in(long long site, const Versioned& table, const std::string& uid) {
  const auto there = current_version(dialect(), table, site, uid);
  if (!there) return;
  Table row = single_row(table, *there, 0);
  bool altered = false;
  for (ConflictRow& one : conflicts_of_row(dialect(), site, uid)) {
    const StoredColumn* column = table.column(one.column);
    if (one.state != kWaiting || column == nullptr) continue;
    const std::string here = cell_text(*row.find(one.column), 0);
    const auto value = parse_cell(*column, one.there);
    if (value && here == one.base) {
      copy_cell(*column, *value, *row.find(one.column));
      altered = true;
      drop(site, one);
    } else {
      one.state = here == one.there ? kAgreed : kOpen;
      put(site, one);
    }
  }
  if (altered) set(site, table, uid, row);
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
    const bool value = wanted_.take == Settlement::Take::value;
    const bool stays = wanted_.take == Settlement::Take::here || (one.sort == "same_key" && !value);
    close(one, stays);
    if (stays) return {};
    if (one.sort == "removed") {
      to_.end(one.site, table, one.row);
      return {};
    }
    if (whole) {
      bring_back(one, table);
      return {};
    }
    return set_field(one, table, value ? wanted_.value : shown.there);
  }

  Result<void> set_field(const ConflictRow& one, const Versioned& table, const std::string& value) {
    bring_back(one, table);
    const auto row = current_version(to_.dialect(), table, one.site, one.row);
    const StoredColumn* column = table.column(one.column);
    if (!row || column == nullptr) return fail(ErrorKind::internal, "store_error", "the row of a conflict is missing");
    const std::string now = cell_text(*row->find(one.column), 0);
    return to_.set_cell(one.site, table, *column, {one.row, one.column, now, value});
  }

  void bring_back(const ConflictRow& one, const Versioned& table) {
    if (current_version(to_.dialect(), table, one.site, one.row)) return;
    to_.revive(one.site, table, one.row);
    to_.let_in(one.site, table, one.row);
    Knowledge knowledge({});
    knowledge.refresh(to_.dialect());
    NameCheck(to_, knowledge, one).look_at_revived(one.site, table, one.row);
  }

  /// What is decided to stay as it is must not be raised again by the next merge.
  void close(ConflictRow one, bool stays) {
    const bool told_again = one.sort == "named" || one.sort == "renamed" || one.sort == "same_key";
    if (stays && told_again) {
      one.state = kSettled;
      return to_.put(one.site, one);
    }
    to_.drop(one.site, one);
    const bool stays_gone = (stays && one.sort == "gone") || (!stays && one.sort == "removed");
    for (const ConflictRow& other : conflicts_of_row(to_.dialect(), one.site, one.row)) {
      if (stays_gone && other.copy == one.copy && other.sort == "value") to_.drop(other.site, other);
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
