#include "store/merge_names.h"

#include <fmt/format.h>

#include <algorithm>

#include "store/cell.h"
#include "store/row_changes.h"

namespace sherd::store {

namespace {

/// The key by which others name a row of this kind; it is the first of its columns.
const StoredColumn& key_of(const Versioned& table) { return table.columns.front(); }

bool is_key(const StoredColumn& column) { return column.spec != nullptr && column.spec->key; }

std::vector<std::string> column_of(Dialect& dialect, const std::string& query,
                                   std::span<const std::string> texts = {}) {
  Table rows;
  rows.add("text", CellType::text);
  dialect.fetch(query, texts, rows);
  std::vector<std::string> found;
  for (std::size_t row = 0; row < rows.rows(); ++row) found.emplace_back(rows.columns()[0].text(row));
  return found;
}

}  // namespace

void NameCheck::look_at(long long site, const Versioned& table) {
  for (const StoredColumn& column : table.columns) {
    if (column.spec == nullptr || !column.spec->refers) continue;
    const Versioned& named = versioned(*column.spec->refers);
    const auto uids = column_of(
        dialect_, fmt::format("select uid from {0} where site = {1} and to_change is null and {2} is not null and {2} "
                              "not in (select {3} from {4} where site = {1} and to_change is null and {3} is not null) "
                              "order by uid",
                              table.table, site, quoted(column.stored), quoted(key_of(named).stored), named.table));
    for (const std::string& uid : uids) look_at_name(site, table, column, uid);
  }
}

void NameCheck::look_at_row(long long site, const Versioned& table, const std::string& uid) {
  for (const StoredColumn& column : table.columns) {
    if (column.spec != nullptr && column.spec->refers) look_at_name(site, table, column, uid);
  }
}

void NameCheck::look_at_name(long long site, const Versioned& table, const StoredColumn& column,
                             const std::string& uid) {
  const RowHistory namer(dialect_, table, site, uid);
  const Table row = namer.newest();
  const std::string key = cell_text(*row.find(column.name), 0);
  const Versioned& named = versioned(*column.spec->refers);
  if (key.empty() || !row_holding(dialect_, named, site, key_of(named), key).empty()) return;
  const LastHolder past = last_holder(dialect_, named, site, key);
  if (past.uid.empty()) return;
  const RowHistory history(dialect_, named, site, past.uid);
  const Namer by{table, uid, namer, namer.head(column, nullptr)};
  if (history.current()) {
    if (one_knew(site, by, past.ended)) return;
    const std::string name = cell_text(*history.newest().find(key_of(named).name), 0);
    raise(site, table, uid, column.name, "renamed", key, name);
  } else {
    for (const std::int64_t gone : removals(site, past.uid, history.last_ended())) {
      if (one_knew(site, by, gone)) return;
    }
    raise(site, named, past.uid, {}, "named", {}, fmt::format("{} {}", table.one, row_name(table, row, 0)));
  }
}

/// The changes that removed a row, on whichever copy.
std::vector<std::int64_t> NameCheck::removals(long long site, const std::string& uid, std::int64_t here) {
  std::vector<std::int64_t> all{here};
  for (const ConflictRow& one : conflicts_of_row(dialect_, site, uid)) {
    if (one.sort == "removed") all.push_back(one.from_change);
  }
  return all;
}

/// Whoever took the key away knew that the row names it, or the other way round. Whoever removed the row as well did
/// not mean it to stay and name what is gone.
bool NameCheck::one_knew(long long site, const Namer& by, std::int64_t gone) {
  const std::string& copy = knowledge_.made_in(gone);
  if (by.history.was_removed_in(copy, knowledge_)) return false;
  for (const ConflictRow& one : conflicts_of_row(dialect_, site, by.uid)) {
    if (one.sort == "removed" && one.copy == copy) return false;
  }
  return knowledge_.follows(gone, by.head) || knowledge_.follows(by.head, gone);
}

void NameCheck::raise(long long site, const Versioned& table, const std::string& row, const std::string& column,
                      const std::string& sort, const std::string& base, const std::string& there) {
  for (const ConflictRow& one : conflicts_of_row(dialect_, site, row)) {
    const bool told = one.sort == sort && one.column == column && one.base == base;
    if (!told) continue;
    told_.insert(one.uid);
    return;
  }
  ConflictRow made = cause_;
  made.uid = conflict_uid(row, column + "=" + sort, cause_.copy);
  made.number = 0;
  made.table = table.table;
  made.row = row;
  made.column = column;
  made.sort = sort;
  made.state = kOpen;
  made.base = base;
  made.there = there;
  told_.insert(made.uid);
  to_.put(site, made);
}

void NameCheck::close_the_rest(long long site) {
  for (const ConflictRow& one : load_conflicts(
           dialect_, fmt::format("site = {} and \"state\" = 'open' and \"sort\" in ('named', 'renamed')", site))) {
    if (!told_.contains(one.uid)) to_.drop(site, one);
  }
}

void NameCheck::look_for_doubles(long long site, const Versioned& table) {
  std::string keys;
  for (const StoredColumn& column : table.columns) {
    if (is_key(column)) keys += (keys.empty() ? "" : ", ") + quoted(column.stored);
  }
  if (keys.empty()) return;
  const auto column = std::ranges::find_if(table.columns, is_key);
  for (const std::string& first :
       column_of(dialect_, fmt::format("select {0} from {1} where site = {2} and to_change is null group by {3} having "
                                       "count(*) > 1",
                                       quoted(column->stored), table.table, site, keys))) {
    look_for_doubles_of(site, table, first);
  }
}

void NameCheck::look_for_doubles_of(long long site, const Versioned& table, const std::string& first) {
  const auto column = std::ranges::find_if(table.columns, is_key);
  if (column == table.columns.end()) return;
  const Table rows = fetch_rows(dialect_, table, {"from_change"},
                                fmt::format("site = {} and to_change is null and coalesce({}, '') = :t1 order by uid",
                                            site, quoted(column->stored)),
                                std::vector<std::string>{first});
  std::map<std::string, std::vector<std::size_t>> by_key;
  for (std::size_t row = 0; row < rows.rows(); ++row) by_key[key_text(table, rows, row)].push_back(row);
  for (const auto& [key, same] : by_key) {
    // Doubles that no merging brought are for `check` to tell.
    const bool merged = std::ranges::any_of(same, [&](std::size_t row) {
      const std::string uid(rows.find("uid")->text(row));
      return !knowledge_.made_in(rows.find("from_change")->integer(row)).empty() ||
             !conflicts_of_row(dialect_, site, uid).empty();
    });
    if (same.size() < 2 || key.empty() || !merged) continue;
    for (std::size_t i = 1; i < same.size(); ++i) {
      raise(site, table, std::string(rows.find("uid")->text(same[i])), column->name, "same_key", {},
            cell_text(*rows.find(column->name), same[i]));
    }
  }
}

void NameCheck::look_at_revived(long long site, const Versioned& table, const std::string& uid) {
  look_at_row(site, table, uid);
  const auto column = std::ranges::find_if(table.columns, is_key);
  const auto row = current_version(dialect_, table, site, uid);
  if (row && column != table.columns.end()) {
    look_for_doubles_of(site, table, cell_text(*row->find(column->name), 0));
  }
}

void Replay::look_over() {
  for (const long long site : knowledge_.sites()) {
    for (const ConflictRow& one : load_conflicts(dialect_, fmt::format("site = {} and \"state\" = 'waiting'", site))) {
      to_.let_in(site, *versioned_named(one.table), one.row);
    }
    NameCheck check(to_, knowledge_, conflict(site_sheets(), {}, {}, {}, kOpen, {}, {}));
    for (const Versioned& table : versioned_tables()) {
      if (!table.kind) continue;
      check.look_at(site, table);
      check.look_for_doubles(site, table);
    }
    check.close_the_rest(site);
  }
}

}  // namespace sherd::store
