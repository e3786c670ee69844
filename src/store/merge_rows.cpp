#include "store/merge_rows.h"

#include <fmt/format.h>

#include <limits>

#include "store/row_changes.h"
#include "store/sql_store.h"

namespace sherd::store {

namespace {

constexpr char kBetween = '\x1f';

std::string key_columns(const Versioned& table) {
  std::string names;
  for (const StoredColumn& column : table.columns) {
    if (column.spec != nullptr && column.spec->key) names += ", " + quoted(column.stored);
  }
  return names;
}

void add_key_columns(const Versioned& table, Table& rows) {
  for (const StoredColumn& column : table.columns) {
    if (column.spec != nullptr && column.spec->key) rows.add(column.name, column.type);
  }
}

std::int64_t newest_seq(Dialect& dialect) {
  Table rows;
  rows.add("seq", CellType::count);
  dialect.fetch("select coalesce(max(seq), 0) from change", {}, rows);
  return rows.columns()[0].integer(0);
}

}  // namespace

void Knowledge::refresh(Dialect& dialect) {
  Table rows;
  rows.add("seq", CellType::count);
  rows.add("uid", CellType::text);
  rows.add("copy", CellType::text);
  rows.add("base", CellType::count);
  dialect.fetch(
      fmt::format("select seq, uid, copy, base from change left join merged_change on merged_change.change = seq "
                  "where seq > {} order by seq",
                  known_.size()),
      {}, rows);
  for (std::size_t row = 0; row < rows.rows(); ++row) {
    if (first_unknown_ > static_cast<std::int64_t>(known_.size())) ++first_unknown_;
    known_.push_back(uids_.contains(std::string(rows.columns()[1].text(row))));
    if (!known_.back()) first_unknown_ = std::min(first_unknown_, static_cast<std::int64_t>(known_.size()));
    if (rows.columns()[2].is_null(row)) continue;
    origins_[rows.columns()[0].integer(row)] = {std::string(rows.columns()[2].text(row)),
                                                rows.columns()[3].integer(row)};
  }
}

bool Knowledge::known(std::int64_t seq) const {
  return seq < 1 || (seq <= static_cast<std::int64_t>(known_.size()) && known_[static_cast<std::size_t>(seq) - 1]);
}

const std::string& Knowledge::made_in(std::int64_t seq) const {
  static const std::string kHere;
  const auto found = origins_.find(seq);
  return found == origins_.end() ? kHere : found->second.copy;
}

bool Knowledge::follows(std::int64_t later, std::int64_t earlier) const {
  if (earlier > later) return false;
  const auto found = origins_.find(later);
  return found == origins_.end() || earlier <= found->second.base || made_in(earlier) == found->second.copy;
}

const std::set<std::string>& Knowledge::rows_with_key(Dialect& dialect, const Versioned& table, long long site,
                                                      const std::string& key) {
  static const std::set<std::string> kNone;
  if (key.empty()) return kNone;
  Keys& keys = keys_[{table.table, site}];
  const std::int64_t newest = newest_seq(dialect);
  const std::int64_t from = std::max(keys.up_to + 1, first_unknown());
  for (const char* change : {"from_change", "to_change"}) {
    if (from > newest) break;
    const bool ended = std::string_view(change) == "to_change";
    Table rows;
    rows.add("uid", CellType::text);
    rows.add("seq", CellType::count);
    add_key_columns(table, rows);
    dialect.fetch(fmt::format("select uid, {0}{1} from {2} where site = {3} and {0} >= {4}{5}", change,
                              key_columns(table), table.table, site, from, ended ? "" : " and to_change is null"),
                  {}, rows);
    for (std::size_t row = 0; row < rows.rows(); ++row) {
      const std::int64_t seq = rows.columns()[1].integer(row);
      if (known(seq) || (ended && made_in(seq).empty())) continue;
      keys.rows[key_text(table, rows, row)].emplace(rows.columns()[0].text(row));
    }
  }
  keys.up_to = std::max(keys.up_to, newest);
  const auto found = keys.rows.find(key);
  return found == keys.rows.end() ? kNone : found->second;
}

namespace {

/// A value, and the change that gave it.
struct Step {
  std::int64_t seq;
  std::string value;
};

std::int64_t head_of(const std::vector<Step>& steps, const Knowledge* knowledge) {
  std::size_t at = steps.size() - 1;
  while (at > 0 && knowledge != nullptr) {
    const std::string& copy = knowledge->made_in(steps[at].seq);
    const auto same = [&](std::size_t i) {
      return i > 0 && !knowledge->known(steps[i].seq) && knowledge->made_in(steps[i].seq) == copy;
    };
    if (copy.empty() || !same(at)) break;
    std::size_t first = at;
    while (same(first - 1)) --first;
    if (steps[first - 1].value != steps[at].value) break;
    at = first - 1;
  }
  return steps[at].seq;
}

}  // namespace

RowHistory::RowHistory(Dialect& dialect, const Versioned& table, long long site, const std::string& uid)
    : table_(&table), uid_(uid) {
  const std::vector<std::string> texts{uid};
  const std::string row = fmt::format("site = {} and uid = :t1 and to_change is ", site);
  versions_ = fetch_rows(dialect, table, {"from_change", "to_change"}, row + "not null order by from_change", texts);
  const Table now = fetch_rows(dialect, table, {"from_change", "to_change"}, row + "null", texts);
  for (std::size_t i = 0; now.rows() > 0 && i < now.columns().size(); ++i) {
    push_cell(versions_.columns()[i], now.columns()[i], 0);
  }
}

Table RowHistory::newest() const {
  if (ever()) return single_row(*table_, versions_, versions_.rows() - 1);
  Table blank;
  blank.add("uid", CellType::text).push_text(uid_);
  for (const StoredColumn& column : table_->columns) blank.add(column.name, column.type).push_null();
  return blank;
}

std::int64_t RowHistory::head(const StoredColumn& column, const Knowledge* knowledge) const {
  std::vector<Step> steps{{0, {}}};
  const Column& cells = *versions_.find(column.name);
  for (std::size_t row = 0; row < versions_.rows(); ++row) {
    std::string value = cell_text(cells, row);
    if (value != steps.back().value) steps.push_back({begun(row), std::move(value)});
  }
  return head_of(steps, knowledge);
}

std::int64_t RowHistory::presence_head(const Knowledge* knowledge) const {
  std::vector<Step> steps{{0, "gone"}};
  for (std::size_t row = 0; row < versions_.rows(); ++row) {
    if (steps.back().value == "gone") steps.push_back({begun(row), "there"});
    if (goes(row)) steps.push_back({ended(row), "gone"});
  }
  return head_of(steps, knowledge);
}

bool RowHistory::was_removed_in(const std::string& copy, const Knowledge& knowledge) const {
  for (std::size_t row = 0; row < versions_.rows(); ++row) {
    if (goes(row) && knowledge.made_in(ended(row)) == copy) return true;
  }
  return false;
}

std::string key_text(const Versioned& table, const Table& rows, std::size_t row) {
  std::string text;
  bool any = false;
  for (const StoredColumn& column : table.columns) {
    if (column.spec == nullptr || !column.spec->key) continue;
    const std::string value = cell_text(*rows.find(column.name), row);
    any = any || !value.empty();
    text += value + kBetween;
  }
  return any ? text : std::string();
}

std::string row_holding(Dialect& dialect, const Versioned& table, long long site, const StoredColumn& column,
                        const std::string& value, const std::string& but) {
  Table rows;
  rows.add("uid", CellType::text);
  dialect.fetch(fmt::format("select uid from {} where site = {} and {} = :t1 and uid <> :t2 and to_change is null "
                            "order by uid limit 1",
                            table.table, site, quoted(column.stored)),
                std::vector<std::string>{value, but}, rows);
  return rows.rows() == 0 ? std::string() : std::string(rows.columns()[0].text(0));
}

bool is_name_of(const StoredColumn& column, const Versioned& table) {
  return column.spec != nullptr && column.spec->refers && table.kind == *column.spec->refers;
}

bool is_named(Dialect& dialect, const Versioned& table, long long site, const std::string& key) {
  if (key.empty()) return false;
  for (const Versioned& by : versioned_tables()) {
    for (const StoredColumn& column : by.columns) {
      if (is_name_of(column, table) && !row_holding(dialect, by, site, column, key).empty()) return true;
    }
  }
  return false;
}

LastHolder last_holder(Dialect& dialect, const Versioned& table, long long site, const std::string& key) {
  Table rows;
  rows.add("uid", CellType::text);
  rows.add("to_change", CellType::count);
  dialect.fetch(fmt::format("select uid, to_change from {} where site = {} and {} = :t1 and to_change is not null "
                            "order by to_change desc, uid limit 1",
                            table.table, site, quoted(table.columns.front().stored)),
                std::vector<std::string>{key}, rows);
  if (rows.rows() == 0) return {};
  return {std::string(rows.columns()[0].text(0)), rows.columns()[1].integer(0)};
}

std::optional<Table> current_version(Dialect& dialect, const Versioned& table, long long site, const std::string& uid) {
  Table rows = fetch_rows(dialect, table, {"from_change"},
                          fmt::format("site = {} and uid = :t1 and to_change is null", site), std::vector{uid});
  if (rows.rows() == 0) return std::nullopt;
  return rows;
}

std::string conflict_uid(const std::string& row, const std::string& column, const std::string& copy) {
  return row + "/" + column + "/" + copy;
}

Table conflict_cells(const ConflictRow& conflict) {
  Table row;
  for (const StoredColumn& column : merge_conflicts().columns) row.add(column.name, column.type);
  row.columns()[0].push_integer(conflict.number);
  std::size_t at = 1;
  for (const std::string* text :
       {&conflict.copy, &conflict.device, &conflict.table, &conflict.row, &conflict.column, &conflict.sort,
        &conflict.state, &conflict.base, &conflict.there, &conflict.change, &conflict.who, &conflict.at}) {
    row.columns()[at++].push_text(*text);
  }
  return row;
}

std::vector<ConflictRow> load_conflicts(Dialect& dialect, const std::string& where,
                                        std::span<const std::string> texts) {
  const Table rows = fetch_rows(dialect, merge_conflicts(), {"from_change", "site"},
                                "to_change is null and " + where + " order by uid", texts);
  std::vector<ConflictRow> found(rows.rows());
  for (std::size_t row = 0; row < rows.rows(); ++row) {
    ConflictRow& one = found[row];
    one.uid = rows.columns()[0].text(row);
    one.from_change = rows.columns()[1].integer(row);
    one.site = rows.columns()[2].integer(row);
    one.number = rows.columns()[3].integer(row);
    std::size_t at = 4;
    for (std::string* text : {&one.copy, &one.device, &one.table, &one.row, &one.column, &one.sort, &one.state,
                              &one.base, &one.there, &one.change, &one.who, &one.at}) {
      *text = rows.columns()[at++].text(row);
    }
  }
  return found;
}

std::vector<ConflictRow> conflicts_of_row(Dialect& dialect, long long site, const std::string& row) {
  // All of a row's begin with its uid and a slash; what follows a slash in the order of bytes is a nought.
  return load_conflicts(dialect, fmt::format("site = {} and uid >= :t1 and uid < :t2", site),
                        std::vector<std::string>{row + "/", row + "0"});
}

}  // namespace sherd::store
