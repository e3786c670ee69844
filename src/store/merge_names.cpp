#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "store/cell.h"
#include "store/merge_replay.h"

// What a replayed change does beside single rows: keys that others name, documents, lists of the store's own.
namespace sherd::store {

namespace {

/// The key by which others name a row of this kind; it is the first of its columns.
const StoredColumn& key_of(const Versioned& table) { return table.columns.front(); }

}  // namespace

bool Replay::still_named(const Removal& removal, const RowHistory& history) {
  const std::string key = cell_text(*history.newest().find(key_of(*removal.table).name), 0);
  if (key.empty()) return false;
  for (const Versioned& by : versioned_tables()) {
    for (const StoredColumn& column : by.columns) {
      if (is_name_of(column, *removal.table) && named_by(by, column, removal.site, key)) return true;
    }
  }
  return false;
}

/// By rows that the copy did not know to do so, or that it removed and that stay.
bool Replay::named_by(const Versioned& by, const StoredColumn& column, long long site, const std::string& key) {
  Table rows;
  rows.add("uid", CellType::text);
  rows.add("from_change", CellType::count);
  dialect_.fetch(
      fmt::format("select uid, from_change from {} where site = {} and {} = :t1 and to_change is null and from_change "
                  ">= {}",
                  by.table, site, quoted(column.stored), held_.empty() ? knowledge_.first_unknown() : 0),
      std::vector<std::string>{key}, rows);
  for (std::size_t row = 0; row < rows.rows(); ++row) {
    const std::string uid(rows.columns()[0].text(row));
    if (held_.contains(uid)) return true;
    if (knowledge_.known(rows.columns()[1].integer(row))) continue;
    if (!knowledge_.known(RowHistory(dialect_, by, site, uid).head(column, &knowledge_))) return true;
  }
  return false;
}

void Replay::wrote(long long site, const Versioned& table, const std::string& uid, const StoredColumn& column,
                   const std::string& before, const std::string& value) {
  if (column.spec == nullptr) return;
  if (column.spec->refers && !value.empty() &&
      knowledge_.may_have_gone(dialect_, versioned(*column.spec->refers), site, value)) {
    names_.push_back({site, &table, &column, value, uid});
  }
  if (!column.spec->key) return;
  if (!before.empty() && &column == &key_of(table)) renamed_.push_back({site, &table, before, value});
  rekeyed_.emplace(site, table.table, uid);
}

void Replay::check_names() {
  for (const Named& named : names_) check_name(named.site, *named.table, *named.column, named.value, named.uid);
  for (const Renamed& one : renamed_) check_renamed(one.site, *one.table, one.from, one.to);
  for (const auto& [site, table, uid] : rekeyed_) check_key(site, *versioned_named(table), uid);
}

/// A row written here names a key: where no row has it any more since someone the copy knows nothing of, that is told.
void Replay::check_name(long long site, const Versioned& table, const StoredColumn& column, const std::string& value,
                        const std::string& uid) {
  const Versioned& named = versioned(*column.spec->refers);
  if (!row_holding(dialect_, named, site, key_of(named), value).empty()) return;
  const LastHolder past = last_holder(dialect_, named, site, value);
  if (past.uid.empty()) return;
  const RowHistory history(dialect_, named, site, past.uid);
  if (history.current()) {
    if (knowledge_.known(past.ended)) return;
    const std::string name = cell_text(*history.newest().find(key_of(named).name), 0);
    return to_.put(site, conflict(table, uid, column.name, "renamed", kOpen, value, name));
  }
  if (knowledge_.known(history.last_ended())) return;
  const std::string by =
      fmt::format("{} {}", table.one, row_name(table, RowHistory(dialect_, table, site, uid).newest(), 0));
  to_.put(site, conflict(named, past.uid, {}, "named", kOpen, {}, by));
}

/// Rows that the copy did not know to name the old key.
void Replay::check_renamed(long long site, const Versioned& table, const std::string& from, const std::string& to) {
  if (!row_holding(dialect_, table, site, key_of(table), from).empty()) return;
  for (const Versioned& by : versioned_tables()) {
    for (const StoredColumn& column : by.columns) {
      if (!is_name_of(column, table)) continue;
      Table rows;
      rows.add("uid", CellType::text);
      dialect_.fetch(
          fmt::format("select uid from {} where site = {} and {} = :t1 and to_change is null and from_change >= {}",
                      by.table, site, quoted(column.stored), knowledge_.first_unknown()),
          std::vector<std::string>{from}, rows);
      for (std::size_t row = 0; row < rows.rows(); ++row) {
        const std::string uid(rows.columns()[0].text(row));
        if (knowledge_.known(RowHistory(dialect_, by, site, uid).head(column, &knowledge_))) continue;
        to_.put(site, conflict(by, uid, column.name, "renamed", kOpen, from, to));
      }
    }
  }
}

/// Two rows that were there before each other's time cannot become one: both keep the key until someone decides.
void Replay::check_key(long long site, const Versioned& table, const std::string& uid) {
  const auto own = current_version(dialect_, table, site, uid);
  if (!own) return;
  const std::string key = key_text(table, *own, 0);
  for (const std::string& other : knowledge_.rows_with_key(dialect_, table, site, key)) {
    if (other == uid) continue;
    const auto there = current_version(dialect_, table, site, other);
    if (!there || key_text(table, *there, 0) != key) continue;
    const auto is_key = [](const StoredColumn& column) { return column.spec != nullptr && column.spec->key; };
    const auto column = std::ranges::find_if(table.columns, is_key);
    return to_.put(site,
                   conflict(table, uid, column->name, "same_key", kOpen, {}, cell_text(*own->find(column->name), 0)));
  }
}

void Replay::replay_documents(long long site, const TableChanges& changes) {
  const std::string beside = fmt::format(" (from {})", copy_.copy.name);
  const auto now_at = rows_by_uid(changes.now);
  for (std::size_t row = 0; row < changes.now.rows(); ++row) {
    const Document& document = changes.documents[row];
    const auto here = current_version(dialect_, documents(), site, document.name);
    const bool same = here && here->find("sha256")->text(0) == changes.now.find("sha256")->text(row);
    if (same) continue;
    const bool free = !here || knowledge_.known(here->find("from_change")->integer(0));
    to_.put_bytes(document.bytes);
    to_.set(site, documents(), free ? document.name : document.name + beside,
            single_row(documents(), changes.now, row));
  }
  for (std::size_t row = 0; row < changes.was.rows(); ++row) {
    if (now_at.contains(changes.was.find("uid")->text(row))) continue;
    const std::string name(changes.was.find("uid")->text(row));
    for (const std::string& each : {name + beside, name}) {
      const auto here = current_version(dialect_, documents(), site, each);
      if (!here || !knowledge_.known(here->find("from_change")->integer(0))) continue;
      to_.end(site, documents(), each);
      break;
    }
  }
}

/// Lists of the store's own: what is there stays, what the copy took away goes where the copy knew it.
void Replay::replay_plain(long long site, const Versioned& table, const TableChanges& changes) {
  const auto now_at = rows_by_uid(changes.now);
  for (std::size_t row = 0; row < changes.now.rows(); ++row) {
    const std::string uid(changes.now.find("uid")->text(row));
    const auto here = current_version(dialect_, table, site, uid);
    if (here && !knowledge_.known(here->find("from_change")->integer(0))) continue;
    Table cells = single_row(table, changes.now, row);
    if (&table == &merge_conflicts()) {
      cells.find("number")->set_integer(0, here ? here->find("number")->integer(0) : to_.next_number());
    }
    to_.set(site, table, uid, cells);
  }
  for (std::size_t row = 0; row < changes.was.rows(); ++row) {
    const std::string uid(changes.was.find("uid")->text(row));
    if (now_at.contains(uid)) continue;
    const auto here = current_version(dialect_, table, site, uid);
    const bool settled = &table == &merge_conflicts();
    if (here && (settled || knowledge_.known(here->find("from_change")->integer(0)))) to_.end(site, table, uid);
  }
}

}  // namespace sherd::store
