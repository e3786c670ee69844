#include "store/versioned.h"

namespace sherd::store {

namespace {

Versioned of_kind(const KindSpec& spec) {
  Versioned out{spec.name, spec.one, spec.kind, {}};
  for (const ColumnSpec& column : spec.columns) {
    out.columns.push_back({column.name, column.stored_name, column.type, &column});
  }
  out.columns.push_back({"extra", "extra", CellType::text, nullptr});
  return out;
}

StoredColumn plain(const std::string& name, CellType type) { return {name, stored_name(name, type), type, nullptr}; }

std::vector<Versioned> all_tables() {
  std::vector<Versioned> tables;
  for (const KindSpec& spec : all_kinds()) tables.push_back(of_kind(spec));
  Versioned sheet{"site_sheet", "project sheet", {}, {}};
  for (const ColumnSpec& column : site_columns()) {
    if (column.name != "code") sheet.columns.push_back({column.name, column.stored_name, column.type, nullptr});
  }
  tables.push_back(std::move(sheet));
  tables.push_back({"document",
                    "document",
                    {},
                    {plain("mime", CellType::text), plain("sha256", CellType::text), plain("bytes", CellType::count)}});
  tables.push_back(
      {"import_file", "note of a file read in", {}, {plain("kind", CellType::text), plain("sha256", CellType::text)}});
  Versioned conflict{"merge_conflict", "open conflict", {}, {plain("number", CellType::count)}};
  for (const char* name :
       {"copy", "device", "table", "row", "column", "sort", "state", "base", "there", "change", "who", "at"}) {
    conflict.columns.push_back(plain(name, CellType::text));
  }
  tables.push_back(std::move(conflict));
  tables.push_back(
      {"row_alias", "second name of a row", {}, {plain("table", CellType::text), plain("row", CellType::text)}});
  return tables;
}

}  // namespace

const StoredColumn* Versioned::column(std::string_view canonical) const {
  for (const StoredColumn& column : columns) {
    if (column.name == canonical) return &column;
  }
  return nullptr;
}

std::string Versioned::quoted_columns() const {
  std::string text;
  for (const StoredColumn& column : columns) {
    if (!text.empty()) text += ',';
    text += quoted(column.stored);
  }
  return text;
}

const std::vector<Versioned>& versioned_tables() {
  static const std::vector<Versioned> kTables = all_tables();
  return kTables;
}

const Versioned& versioned(Kind kind) { return versioned_tables()[static_cast<std::size_t>(kind)]; }
const Versioned& site_sheets() { return versioned_tables()[kKinds]; }
const Versioned& documents() { return versioned_tables()[kKinds + 1]; }
const Versioned& import_files() { return versioned_tables()[kKinds + 2]; }
const Versioned& merge_conflicts() { return versioned_tables()[kKinds + 3]; }
const Versioned& row_aliases() { return versioned_tables()[kKinds + 4]; }

const Versioned* versioned_named(std::string_view name) {
  for (const Versioned& table : versioned_tables()) {
    if (table.table == name) return &table;
  }
  return nullptr;
}

std::string quoted(std::string_view name) { return '"' + std::string(name) + '"'; }

}  // namespace sherd::store
