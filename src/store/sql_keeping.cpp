#include <fmt/format.h>
#include <soci/soci.h>

#include <algorithm>

#include "base/hash.h"
#include "model/rows.h"
#include "model/words.h"
#include "store/cell.h"
#include "store/sql_store.h"
#include "store/sql_writing.h"

// What a store keeps beside the rows of the record: project sheets, record numbers, documents, files read in.
namespace sherd::store {

namespace {

constexpr std::size_t kChunk = std::size_t{1} << 20U;

/// The row of a project sheet, the code left out.
struct SheetRow {
  const Site& site;
  Table row;

  template <class M>
  void field(std::string_view name, M Site::* member, const ColumnNote&) {
    const StoredColumn* column = site_sheets().column(name);
    if (column != nullptr) detail::RowWriter<Site>::push(row.add(name, column->type), site.*member);
  }
};

Result<Table> sheet_row(const Site& site) {
  SheetRow writer{site, {}};
  Site::fields(writer);
  for (const StoredColumn& column : site_sheets().columns) {
    if (column.type == CellType::text) SHERD_CHECK(check_text(column.name, writer.row.find(column.name)->text(0)));
  }
  return std::move(writer.row);
}

Table empty_row(const Versioned& table) {
  Table row;
  for (const StoredColumn& column : table.columns) row.add(column.name, column.type).push_null();
  return row;
}

bool same_row(const Table& a, const Table& b, const Versioned& table) {
  for (const StoredColumn& column : table.columns) {
    if (cell_text(*a.find(column.name), 0) != cell_text(*b.find(column.name), 0)) return false;
  }
  return true;
}

Table current_row(Dialect& dialect, long long site, const Versioned& table, const std::string& uid) {
  const std::vector<std::string> uids{uid};
  return fetch_versions(dialect, table, fmt::format("site = {} and uid = :t1 and to_change is null", site), uids);
}

}  // namespace

namespace {

std::unexpected<Error> used_up(const std::string& site, long long left, long long wanted) {
  return fail("lease_used_up",
              fmt::format("this copy has {} record numbers left for site {}, and {} are needed", left, site, wanted),
              "Merge it into its store, then take a new copy with more: sherdwright copy STORE FILE --lease N");
}

}  // namespace

std::string import_uid(Kind kind, const std::string& sha256) { return kind_spec(kind).name + "/" + sha256; }

void SqlWriting::raise_counter(long long site, long long next) {
  dialect().sql() << "insert into record_counter (site, next) values (:s, :n) on conflict (site) do update set next = "
                     "excluded.next where record_counter.next < excluded.next",
      soci::use(site), soci::use(next);
  dialect().counter_set(site);
}

Result<std::int64_t> SqlWriting::lease_records(const std::string& site, std::int64_t count) {
  return doing([&]() -> Result<std::int64_t> {
    if (count < 1) return fail(ErrorKind::internal, "bad_count", "record numbers are leased one or more at a time");
    SHERD_TRY(const long long id, site_id(dialect(), site));
    const long long many = count;
    long long first = 0, last = 0;
    soci::session& sql = dialect().sql();
    sql << "select next, last from record_lease where site = :s", soci::use(id), soci::into(first), soci::into(last);
    if (sql.got_data()) {
      if (many > last - first + 1) return used_up(site, std::max(last - first + 1, 0LL), many);
      sql << "update record_lease set next = next + :n where site = :s", soci::use(many), soci::use(id);
      return first;
    }
    raise_counter(id, 1);
    sql << "select next from record_counter where site = :s", soci::use(id), soci::into(first);
    sql << "update record_counter set next = next + :n where site = :s", soci::use(many), soci::use(id);
    return first;
  });
}

Result<void> SqlWriting::put_site(const Site& site) {
  return doing([&]() -> Result<void> {
    if (site.code.empty()) return fail("no_code", "a site needs a code", "Give it one with --site");
    SHERD_CHECK(check_text("code", site.code));
    soci::session& sql = dialect().sql();
    long long id = 0;
    sql << "select id from site where code = :c", soci::use(site.code), soci::into(id);
    if (!sql.got_data()) {
      sql << "select coalesce(max(id), 0) + 1 from site", soci::into(id);
      sql << "insert into site (id, code) values (:i, :c)", soci::use(id), soci::use(site.code);
    }
    SHERD_TRY(const Table row, sheet_row(site));
    const std::string uid(kSheetUid);
    const Table now = current_row(dialect(), id, site_sheets(), uid);
    if (now.rows() == 0 || !same_row(now, row, site_sheets())) set_row(id, site_sheets(), uid, row);
    return {};
  });
}

Result<void> SqlWriting::note_import(const std::string& site, Kind kind, const std::string& sha256) {
  return doing([&]() -> Result<void> {
    SHERD_TRY(const long long id, site_id(dialect(), site));
    const std::string uid = import_uid(kind, sha256);
    if (current_row(dialect(), id, import_files(), uid).rows() > 0) return {};
    Table row = empty_row(import_files());
    row.find("kind")->set_text(0, kind_spec(kind).name);
    row.find("sha256")->set_text(0, sha256);
    set_row(id, import_files(), uid, row);
    return {};
  });
}

Result<void> SqlWriting::put_document(const std::string& site, const Document& document) {
  return doing([&]() -> Result<void> {
    if (document.name.empty()) return fail(ErrorKind::internal, "no_name", "a document came without a name");
    SHERD_CHECK(check_text("name", document.name));
    SHERD_CHECK(check_text("mime", document.mime));
    SHERD_TRY(const long long id, site_id(dialect(), site));
    const std::string hash = sha256(document.bytes);
    const std::string_view bytes = document.bytes;
    put_bytes(document.bytes);
    Table row = empty_row(documents());
    row.find("mime")->set_text(0, document.mime);
    row.find("sha256")->set_text(0, hash);
    row.find("bytes")->set_integer(0, static_cast<std::int64_t>(bytes.size()));
    set_row(id, documents(), document.name, row);
    return {};
  });
}

void SqlWriting::put_bytes(const std::string& bytes) {
  const std::string hash = sha256(bytes);
  const std::string_view all = bytes;
  for (std::size_t at = 0; at < all.size(); at += kChunk) {
    dialect().put_chunk(hash, static_cast<std::int64_t>(at / kChunk), all.substr(at, kChunk));
  }
}

Result<std::optional<Document>> SqlStore::document(const std::string& site, const std::string& name) {
  return reading([&]() -> Result<std::optional<Document>> {
    SHERD_TRY(const long long id, site_id(dialect(), site));
    const Table row = current_row(dialect(), id, documents(), name);
    if (row.rows() == 0) return std::nullopt;
    Document document{name, std::string(row.find("mime")->text(0)), {}};
    const std::string hash(row.find("sha256")->text(0));
    const auto size = static_cast<std::size_t>(row.find("bytes")->integer(0));
    for (std::size_t at = 0; at < size; at += kChunk) {
      dialect().append_chunk(hash, static_cast<std::int64_t>(at / kChunk), document.bytes);
    }
    if (document.bytes.size() == size && sha256(document.bytes) == hash) return document;
    return fail("damaged_store", fmt::format("the document {} is not what was kept under that name", name),
                "Restore the last backup: sherdwright restore BACKUP NEW-STORE");
  });
}

Result<std::vector<std::string>> SqlStore::document_names(const std::string& site, std::string_view prefix) {
  return reading([&]() -> Result<std::vector<std::string>> {
    SHERD_TRY(const long long id, site_id(dialect(), site));
    const Table rows = fetch_versions(dialect(), documents(), fmt::format("site = {} and to_change is null", id));
    std::vector<std::string> names;
    for (std::size_t row = 0; row < rows.rows(); ++row) {
      if (const std::string_view name = rows.find("uid")->text(row); name.starts_with(prefix)) names.emplace_back(name);
    }
    return names;
  });
}

}  // namespace sherd::store
