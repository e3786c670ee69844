#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "store/cell.h"
#include "store/merge_replay.h"
#include "store/sql_store.h"

namespace sherd::store {

namespace {

/// "grey-1"; for kinds without a key what they belong to: "17".
std::string shown_name(const Versioned& table, const Table& row) {
  std::vector<std::string> keys, names;
  for (const StoredColumn& column : table.columns) {
    if (column.spec == nullptr) continue;
    const std::string text = cell_text(*row.find(column.name), 0);
    if (text.empty()) continue;
    if (column.spec->key) keys.push_back(text);
    if (column.spec->refers) names.push_back(text);
  }
  if (!keys.empty()) return join(keys, ", ");
  return names.empty() ? std::string(row.find("uid")->text(0)) : join(names, ", ");
}

class Listing {
 public:
  Listing(Dialect& dialect, const ConflictRow& one)
      : dialect_(dialect),
        one_(one),
        table_(*versioned_named(one.table)),
        history_(dialect, table_, one.site, one.row),
        row_(history_.newest()) {}

  /// Nothing where there is nothing to decide any more.
  std::optional<OpenConflict> shown() {
    const bool whole = one_.column.empty();
    const StoredColumn* column = whole ? nullptr : table_.column(one_.column);
    if (!whole && column == nullptr) return std::nullopt;
    OpenConflict shown;
    shown.number = one_.number;
    shown.table = table_.table;
    shown.row = shown_name(table_, row_);
    shown.column = one_.column;
    shown.sort = one_.sort;
    shown.base = one_.base;
    shown.here = column == nullptr ? std::string() : cell_text(*row_.find(one_.column), 0);
    shown.there = one_.there;
    shown.copy = one_.device;
    if (!still_open(shown)) return std::nullopt;
    if (whole) name_sides(shown);
    std::int64_t seq = history_.current() ? history_.last_begun() : history_.ever() ? history_.last_ended() : 0;
    if (!history_.current() && !whole) shown.here = "removed";
    if (history_.current() && !whole) seq = history_.head(*column, nullptr);
    shown.here_who = who(seq).who;
    shown.here_at = who(seq).at;
    shown.there_who = one_.who;
    shown.there_at = one_.at;
    shown.site = site_code();
    return shown;
  }

 private:
  bool still_open(const OpenConflict& shown) {
    if (one_.sort == "removed") return history_.current();
    if (one_.sort == "gone") return !history_.current();
    if (one_.sort == "named") return !history_.current() && still_named();
    if (one_.sort == "value") return !history_.current() || shown.here != one_.there;
    if (!history_.current()) return false;
    if (one_.sort == "same_key") return has_double();
    const Kind named = *table_.column(one_.column)->spec->refers;
    const Versioned& of = versioned(named);
    return shown.here == one_.base && row_holding(dialect_, of, one_.site, of.columns.front(), one_.base).empty();
  }

  bool still_named() {
    const StoredColumn& column = table_.columns.front();
    const std::string key = cell_text(*row_.find(column.name), 0);
    return row_holding(dialect_, table_, one_.site, column, key).empty() && is_named(dialect_, table_, one_.site, key);
  }

  bool has_double() {
    const std::string key = key_text(table_, row_, 0);
    const StoredColumn& column = *table_.column(one_.column);
    Table rows;
    rows.add("uid", CellType::text);
    dialect_.fetch(fmt::format("select uid from {} where site = {} and {} = :t1 and to_change is null", table_.table,
                               one_.site, quoted(column.stored)),
                   std::vector<std::string>{cell_text(*row_.find(column.name), 0)}, rows);
    for (const std::string& uid : rows.columns()[0].words()) {
      if (uid.empty() || uid == one_.row) continue;
      const auto other = current_version(dialect_, table_, one_.site, uid);
      if (other && key_text(table_, *other, 0) == key) return true;
    }
    return false;
  }

  void name_sides(OpenConflict& shown) const {
    shown.base = "there";
    shown.here = one_.sort == "removed" ? "kept" : "removed";
    if (one_.sort == "removed") shown.there = "removed";
    if (one_.sort == "gone") shown.there = "altered";
    if (one_.sort == "named") shown.there = "named by " + one_.there;
  }

  Change who(std::int64_t seq) {
    const std::vector<Change> found = load_changes(dialect_, seq - 1, true);
    return found.empty() ? Change{} : found.front();
  }

  std::string site_code() {
    Table rows;
    rows.add("code", CellType::text);
    dialect_.fetch(fmt::format("select code from site where id = {}", one_.site), {}, rows);
    return rows.rows() == 0 ? std::string() : std::string(rows.columns()[0].text(0));
  }

  Dialect& dialect_;
  const ConflictRow& one_;
  const Versioned& table_;
  RowHistory history_;
  Table row_;
};

}  // namespace

std::vector<OpenConflict> list_conflicts(Dialect& dialect, std::optional<std::int64_t> number) {
  std::string where = "\"state\" = 'open'";
  if (number) where += fmt::format(" and number = {}", *number);
  std::vector<OpenConflict> all;
  for (const ConflictRow& one : load_conflicts(dialect, where)) {
    if (versioned_named(one.table) == nullptr) continue;
    if (auto shown = Listing(dialect, one).shown()) all.push_back(std::move(*shown));
  }
  std::ranges::sort(all, {}, &OpenConflict::number);
  return all;
}

}  // namespace sherd::store
