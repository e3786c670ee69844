#include "store/sqlite_raw.h"

#include <fmt/format.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>

namespace sherd::store {

namespace {

using sqlite_api::sqlite3_stmt;

std::string_view bytes_at(sqlite3_stmt* statement, int column, bool is_blob) {
  const void* bytes = is_blob ? sqlite_api::sqlite3_column_blob(statement, column)
                              : static_cast<const void*>(sqlite_api::sqlite3_column_text(statement, column));
  const int size = sqlite_api::sqlite3_column_bytes(statement, column);
  return bytes == nullptr ? std::string_view()
                          : std::string_view(static_cast<const char*>(bytes), static_cast<std::size_t>(size));
}

RawCell cell_at(sqlite3_stmt* statement, int column) {
  switch (sqlite_api::sqlite3_column_type(statement, column)) {
    case SQLITE_NULL:
      return {};
    case SQLITE_INTEGER:
      return std::int64_t{sqlite_api::sqlite3_column_int64(statement, column)};
    default:
      return bytes_at(statement, column, sqlite_api::sqlite3_column_type(statement, column) == SQLITE_BLOB);
  }
}

class Writer final : public RawWriter {
 public:
  Writer(Handle handle, const RawTable& table) : handle_(handle), table_(table) {
    std::string places;
    for (std::size_t i = 0; i < table.columns.size(); ++i) places += i == 0 ? "?" : ",?";
    insert_ =
        prepare(handle, fmt::format("insert into {} ({}) values ({})", table.name, table.quoted_columns(), places));
  }

  void add(RawRow row) override {
    for (std::size_t i = 0; i < row.size(); ++i) bind(static_cast<int>(i) + 1, row[i], table_.columns[i].storage);
    step(handle_, insert_.get());
    sqlite_api::sqlite3_reset(insert_.get());
  }
  void finish() override {}

 private:
  void bind(int at, const RawCell& cell, Storage storage) {
    if (const auto* integer = std::get_if<std::int64_t>(&cell)) {
      sqlite_api::sqlite3_bind_int64(insert_.get(), at, *integer);
    } else if (const auto* bytes = std::get_if<std::string_view>(&cell)) {
      // Bytes that are none bind as nothing where there is no address.
      const char* data = bytes->data() == nullptr ? "" : bytes->data();
      const int size = static_cast<int>(bytes->size());
      if (storage == Storage::bytes) {
        sqlite_api::sqlite3_bind_blob(insert_.get(), at, data, size, SQLITE_STATIC);
      } else {
        sqlite_api::sqlite3_bind_text(insert_.get(), at, data, size, SQLITE_STATIC);
      }
    } else {
      sqlite_api::sqlite3_bind_null(insert_.get(), at);
    }
  }

  Handle handle_;
  RawTable table_;
  Statement insert_;
};

}  // namespace

std::vector<RawTable> raw_tables(Handle handle) {
  std::vector<RawTable> tables;
  const Statement select =
      prepare(handle,
              "select m.name, c.name, lower(c.type) from sqlite_schema m join "
              "pragma_table_info(m.name) c where m.type = 'table' and m.name not like 'sqlite\\_%' "
              "escape '\\' order by m.rowid, c.cid");
  while (step(handle, select.get())) {
    const std::string name(bytes_at(select.get(), 0, false));
    const std::string_view type = bytes_at(select.get(), 2, false);
    if (tables.empty() || tables.back().name != name) tables.push_back({name, {}});
    const Storage storage = type == "integer" ? Storage::integer : (type == "blob" ? Storage::bytes : Storage::text);
    tables.back().columns.push_back({std::string(bytes_at(select.get(), 1, false)), storage});
  }
  return tables;
}

void scan_sqlite(Handle handle, const RawTable& table, const std::function<void(RawRow)>& row) {
  const Statement select = prepare(handle, table.query());
  std::vector<RawCell> cells(table.columns.size());
  while (step(handle, select.get())) {
    for (std::size_t i = 0; i < cells.size(); ++i) cells[i] = cell_at(select.get(), static_cast<int>(i));
    row(cells);
  }
}

std::unique_ptr<RawWriter> sqlite_writer(Handle handle, const RawTable& table) {
  return std::make_unique<Writer>(handle, table);
}

}  // namespace sherd::store
