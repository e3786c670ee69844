#include "store/sql_store.h"

#include <fmt/format.h>
#include <soci/soci.h>

#include "base/text.h"
#include "model/rows.h"
#include "store/cell.h"
#include "store/sql_writing.h"

namespace sherd::store {

namespace {

std::string where_of(std::int64_t site, const std::optional<std::int64_t>& as_of, std::string_view state) {
  if (!as_of) return fmt::format("site = {} and to_change is null", site);
  return fmt::format("site = {} and from_change <= {} and to_change {}", site, *as_of,
                     state == "current" ? "is null" : fmt::format("> {}", *as_of));
}

/// Rows come in the order in which they were added, whatever was edited since: that of their uids.
std::string read_query(const std::string& table, const std::string& columns, std::int64_t site,
                       const std::optional<std::int64_t>& as_of, const std::string& having) {
  if (!as_of) {
    // Few rows: SQLite should find them by what they have, and not walk all of them in the order of their uids.
    const char* order = having.empty() ? "uid" : "uid || ''";
    return fmt::format("select {} from {} where {}{} order by {}", columns, table, where_of(site, as_of, ""), having,
                       order);
  }
  return fmt::format(
      "select {0} from (select * from {1} where {2}{4} union all select * from {1} where {3}{4}) v order by uid",
      columns, table, where_of(site, as_of, "current"), where_of(site, as_of, "past"), having);
}

std::unexpected<Error> no_column(const Versioned& table, const std::string& name) {
  std::vector<std::string> known{"uid", "changed"};
  for (const StoredColumn& each : table.columns) known.push_back(each.name);
  return fail("unknown_column", fmt::format("{} have no column \"{}\"", table.table, name), did_you_mean(name, known));
}

/// " and ..." for each; texts go by :t1, :t2 ..., numbers stand in the query.
Result<std::string> having_of(const Versioned& table, const std::vector<Having>& having,
                              std::vector<std::string>& texts) {
  std::string where;
  for (const Having& one : having) {
    const StoredColumn* column = table.column(one.column);
    if (column == nullptr && one.column != "uid") return no_column(table, one.column);
    const std::string name = column == nullptr ? "uid" : quoted(column->stored);
    if (one.value.empty()) {
      where += fmt::format(" and {} is null", name);
    } else if (column == nullptr || is_text(column->type)) {
      texts.push_back(one.value);
      where += fmt::format(" and {} = :t{}", name, texts.size());
    } else {
      SHERD_TRY(const Cell cell, parse_cell(*column, one.value));
      where += fmt::format(" and {} = {}", name, cell.integer.value_or(0));
    }
  }
  return where;
}

Result<std::string> requested_columns(const Versioned& table, const std::vector<std::string>& wanted, Table& into) {
  std::vector<std::string> stored;
  for (const std::string& name : wanted) {
    if (name == "uid") {
      into.add("uid", CellType::text);
      stored.emplace_back("uid");
    } else if (name == "changed") {
      into.add("changed", CellType::count);
      stored.emplace_back("from_change");
    } else if (const StoredColumn* column = table.column(name)) {
      into.add(name, column->type);
      stored.push_back(quoted(column->stored));
    } else {
      return no_column(table, name);
    }
  }
  return join(stored, ", ");
}

}  // namespace

SqlStore::SqlStore(std::unique_ptr<Dialect> dialect, std::vector<std::string> warnings)
    : SqlStore(std::make_shared<Connection>(std::move(dialect)), std::move(warnings)) {}

SqlStore::SqlStore(std::shared_ptr<Connection> connection, std::vector<std::string> warnings)
    : connection_(std::move(connection)), warnings_(std::move(warnings)) {}

Result<std::vector<Site>> SqlStore::sites() {
  return reading([&]() -> Result<std::vector<Site>> {
    Table rows;
    rows.add("code", CellType::text);
    for (const StoredColumn& column : site_sheets().columns) rows.add(column.name, column.type);
    dialect().fetch(fmt::format("select code, {} from site join site_sheet on site_sheet.site = site.id "
                                "where to_change is null order by code",
                                site_sheets().quoted_columns()),
                    {}, rows);
    return rows_from<Site>(rows);
  });
}

Result<Table> SqlStore::read(const ReadRequest& request) {
  return reading([&]() -> Result<Table> {
    const Versioned& table = versioned(request.kind);
    SHERD_TRY(const long long site, site_id(dialect(), request.site));
    Table rows(request.kind);
    const auto& all = request.columns.empty() ? kind_spec(request.kind).column_names() : request.columns;
    SHERD_TRY(const std::string columns, requested_columns(table, all, rows));
    std::vector<std::string> texts;
    SHERD_TRY(std::string having, having_of(table, request.having, texts));
    if (request.changed_after > 0) having += fmt::format(" and from_change > {}", request.changed_after);
    dialect().fetch(read_query(table.table, columns, site, request.as_of, having), texts, rows);
    return rows;
  });
}

Result<Table> SqlStore::sums(const SumRequest& request) {
  return reading([&]() -> Result<Table> {
    const Versioned& table = versioned(request.kind);
    SHERD_TRY(const long long site, site_id(dialect(), request.site));
    Table rows;
    SHERD_TRY(const std::string by, requested_columns(table, {request.by}, rows));
    rows.add("rows", CellType::count);
    std::string asked = by + ", count(*)";
    for (const std::string& name : request.sums) {
      SHERD_TRY(const std::string column, requested_columns(table, {name}, rows));
      if (is_text(rows.find(name)->type())) return no_column(table, name);
      asked += fmt::format(", cast(sum({}) as bigint)", column);
    }
    rows.add("changed", CellType::count);
    dialect().fetch(fmt::format("select {}, max(from_change) from {} where site = {} and to_change is null group by {} "
                                "order by {}",
                                asked, table.table, site, by, by),
                    {}, rows);
    return rows;
  });
}

Result<std::int64_t> SqlStore::count_rows(const std::string& site, Kind kind) {
  return reading([&]() -> Result<std::int64_t> {
    SHERD_TRY(const long long id, site_id(dialect(), site));
    long long rows = 0;
    dialect().sql() << fmt::format("select count(*) from {} where site = :s and to_change is null",
                                   versioned(kind).table),
        soci::use(id), soci::into(rows);
    return rows;
  });
}

Result<std::unique_ptr<Writing>> SqlStore::begin(const ChangeNote& note) {
  SHERD_TRY(auto writing, SqlWriting::begin(connection_, note, std::nullopt));
  return std::unique_ptr<Writing>(std::move(writing));
}

Result<std::vector<Change>> SqlStore::changes(std::int64_t after_seq) {
  return reading([&]() -> Result<std::vector<Change>> { return load_changes(dialect(), after_seq); });
}

Result<std::optional<Change>> SqlStore::newest_change() {
  return reading([&]() -> Result<std::optional<Change>> {
    long long newest = 0;
    dialect().sql() << "select coalesce(max(seq), 0) from change", soci::into(newest);
    const std::vector<Change> found = load_changes(dialect(), newest - 1);
    if (found.empty()) return std::nullopt;
    return found.front();
  });
}

Result<bool> SqlStore::was_imported(const std::string& site, Kind kind, const std::string& sha256) {
  return reading([&]() -> Result<bool> {
    SHERD_TRY(const long long id, site_id(dialect(), site));
    const std::string uid = import_uid(kind, sha256);
    long long found = 0;
    dialect().sql() << "select count(*) from import_file where site = :s and uid = :u and to_change is null",
        soci::use(id), soci::use(uid), soci::into(found);
    return found > 0;
  });
}

Result<void> SqlStore::backup(const std::string& file) {
  // A store in memory has one connection only: its copy would hold what is not committed.
  if (connection_->writing) return fail(writing_open());
  return dialect().backup(file);
}

std::vector<std::string> SqlStore::warnings() const {
  std::vector<std::string> all = connection_->dialect->warnings();
  all.insert(all.end(), warnings_.begin(), warnings_.end());
  return all;
}

Result<long long> site_id(Dialect& dialect, const std::string& code) {
  long long id = 0;
  soci::session& sql = dialect.sql();
  // What no store can hold as text, no store has as a code.
  if (check_text("code", code)) {
    sql << "select id from site where code = :c", soci::use(code), soci::into(id);
    if (sql.got_data()) return id;
  }
  Table known;
  known.add("code", CellType::text);
  dialect.fetch("select code from site order by code", {}, known);
  const std::string near = did_you_mean(code, known.columns().front().words());
  return fail("no_site", fmt::format("the store has no site \"{}\"", code),
              near.empty() ? "\"sherdwright new\" makes a site" : near);
}

std::vector<Change> load_changes(Dialect& dialect, std::int64_t after_seq, bool only) {
  const long long after = after_seq;
  const long long last = only ? after_seq + 1 : std::numeric_limits<long long>::max();
  long long seq = 0, undoes = 0, added = 0, changed = 0, removed = 0;
  Change row;
  soci::indicator has_undone = soci::i_null;
  soci::statement select =
      (dialect.sql().prepare << "select seq, uid, at, who, origin, command, undoes, rows_added, rows_changed, "
                                "rows_removed from change where seq > :a and seq <= :l order by seq",
       soci::use(after), soci::use(last), soci::into(seq), soci::into(row.uid), soci::into(row.at), soci::into(row.who),
       soci::into(row.origin), soci::into(row.command), soci::into(undoes, has_undone), soci::into(added),
       soci::into(changed), soci::into(removed));
  select.execute();
  std::vector<Change> rows;
  while (select.fetch()) {
    row.seq = seq;
    row.undoes = has_undone == soci::i_ok ? std::optional<std::int64_t>(undoes) : std::nullopt;
    row.rows_added = added;
    row.rows_changed = changed;
    row.rows_removed = removed;
    rows.push_back(row);
  }
  return rows;
}

Table fetch_versions(Dialect& dialect, const Versioned& table, const std::string& where,
                     std::span<const std::string> texts) {
  Table rows = table.kind ? Table(*table.kind) : Table();
  rows.add("uid", CellType::text);
  for (const StoredColumn& column : table.columns) rows.add(column.name, column.type);
  dialect.fetch(fmt::format("select uid, {} from {} where {} order by uid", table.quoted_columns(), table.table, where),
                texts, rows);
  return rows;
}

}  // namespace sherd::store
