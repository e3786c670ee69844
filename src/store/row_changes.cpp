#include "store/row_changes.h"

#include <fmt/format.h>

#include "base/hash.h"
#include "store/sql_store.h"

namespace sherd::store {

namespace {

std::vector<std::pair<std::int64_t, std::string>> sites_touched(Dialect& dialect, const Versioned& table,
                                                                std::int64_t seq) {
  Table rows;
  rows.add("id", CellType::count);
  rows.add("code", CellType::text);
  dialect.fetch(fmt::format("select id, code from site where id in (select site from {0} where from_change = {1} union "
                            "select site from {0} where to_change = {1}) order by id",
                            table.table, seq),
                {}, rows);
  std::vector<std::pair<std::int64_t, std::string>> sites;
  for (std::size_t row = 0; row < rows.rows(); ++row) {
    sites.emplace_back(rows.columns()[0].integer(row), rows.columns()[1].text(row));
  }
  return sites;
}

Table empty_like(const Versioned& table) {
  Table rows;
  rows.add("uid", CellType::text);
  for (const StoredColumn& column : table.columns) rows.add(column.name, column.type);
  return rows;
}

void push_row(Table& to, const Table& from, std::size_t row) {
  for (std::size_t i = 0; i < to.names().size(); ++i) push_cell(to.columns()[i], *from.find(to.names()[i]), row);
}

/// Of rows that the change began and did not end a version of: the last version before it, where there is one.
Table former_rows(Dialect& dialect, const Versioned& table, std::int64_t site, std::int64_t seq, const Table& was) {
  const Table past = fetch_rows(
      dialect, table, {},
      fmt::format("site = {1} and to_change is not null and to_change < {2} and uid in (select uid from {0} where site "
                  "= {1} and from_change = {2}) order by uid, from_change",
                  table.table, site, seq));
  const auto ended = rows_by_uid(was);
  Table former = empty_like(table);
  const Column& uids = *past.find("uid");
  for (std::size_t row = 0; row < past.rows(); ++row) {
    const bool last = row + 1 == past.rows() || uids.text(row + 1) != uids.text(row);
    if (last && !ended.contains(uids.text(row))) push_row(former, past, row);
  }
  return former;
}

/// The bytes that a version of a document names, whatever has taken its place since.
Result<Document> document_of(Dialect& dialect, const Table& rows, std::size_t row) {
  Document document{std::string(rows.find("uid")->text(row)), std::string(rows.find("mime")->text(row)), {}};
  const std::string hash(rows.find("sha256")->text(row));
  const auto size = static_cast<std::size_t>(rows.find("bytes")->integer(row));
  std::size_t before = 0;
  for (std::int64_t chunk = 0; document.bytes.size() < size; ++chunk) {
    dialect.append_chunk(hash, chunk, document.bytes);
    if (document.bytes.size() == before) break;
    before = document.bytes.size();
  }
  if (document.bytes.size() == size && sha256(document.bytes) == hash) return document;
  return fail("damaged_store", fmt::format("the document {} is not what was kept under that name", document.name),
              "Restore the last backup: sherdwright restore BACKUP NEW-STORE");
}

}  // namespace

Table fetch_rows(Dialect& dialect, const Versioned& table, const std::vector<std::string>& more,
                 const std::string& where, std::span<const std::string> texts) {
  Table rows;
  rows.add("uid", CellType::text);
  std::string extra;
  for (const std::string& name : more) {
    rows.add(name, CellType::count);
    extra += name + ", ";
  }
  for (const StoredColumn& column : table.columns) rows.add(column.name, column.type);
  dialect.fetch(fmt::format("select uid, {}{} from {} where {}", extra, table.quoted_columns(), table.table, where),
                texts, rows);
  return rows;
}

std::unordered_map<std::string_view, std::size_t> rows_by_uid(const Table& rows) {
  std::unordered_map<std::string_view, std::size_t> index;
  const Column* uids = rows.find("uid");
  for (std::size_t row = 0; row < rows.rows(); ++row) index.emplace(uids->text(row), row);
  return index;
}

void push_cell(Column& to, const Column& from, std::size_t row) {
  if (is_text(to.type())) {
    to.push_text(from.text(row));
  } else {
    to.push_integer(from.integer(row));
  }
}

Table single_row(const Versioned& table, const Table& from, std::size_t row) {
  Table one;
  one.add("uid", CellType::text).push_text(from.find("uid")->text(row));
  for (const StoredColumn& column : table.columns) {
    Column& to = one.add(column.name, column.type);
    const Column* cells = from.find(column.name);
    if (cells == nullptr) {
      to.push_null();
    } else {
      push_cell(to, *cells, row);
    }
  }
  return one;
}

Result<std::vector<TableChanges>> load_table_changes(Dialect& dialect, std::int64_t seq) {
  std::vector<TableChanges> all;
  for (const Versioned& table : versioned_tables()) {
    for (const auto& [site, code] : sites_touched(dialect, table, seq)) {
      TableChanges changes{.site = code, .table = table.table};
      const std::string here = fmt::format("site = {}", site);
      changes.was = fetch_rows(dialect, table, {}, fmt::format("{} and to_change = {} order by uid", here, seq));
      changes.now =
          fetch_rows(dialect, table, {"to_change"}, fmt::format("{} and from_change = {} order by uid", here, seq));
      if (changes.now.rows() > 0) {
        changes.former = former_rows(dialect, table, site, seq, changes.was);
        changes.latest =
            fetch_rows(dialect, table, {},
                       fmt::format("{0} and to_change is null and from_change > {2} and uid in (select uid "
                                   "from {1} where {0} and from_change = {2})",
                                   here, table.table, seq));
      }
      for (std::size_t row = 0; table.table == documents().table && row < changes.now.rows(); ++row) {
        SHERD_TRY(Document document, document_of(dialect, changes.now, row));
        changes.documents.push_back(std::move(document));
      }
      all.push_back(std::move(changes));
    }
  }
  return all;
}

}  // namespace sherd::store
