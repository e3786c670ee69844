#include <fmt/format.h>
#include <soci/soci.h>

#include <algorithm>

#include "base/hash.h"
#include "store/cell.h"
#include "store/change_hash.h"
#include "store/sql_store.h"

// All that a store holds of a site, read out and filled in again.
namespace sherd::store {

namespace {

constexpr std::int64_t kChunk = std::int64_t{1} << 20;

TableVersions empty_versions(const Versioned& table) {
  TableVersions out{table.table, table.kind ? Table(*table.kind) : Table()};
  out.rows.add("uid", CellType::text);
  out.rows.add("from_change", CellType::count);
  out.rows.add("to_change", CellType::count);
  for (const StoredColumn& column : table.columns) out.rows.add(column.name, column.type);
  return out;
}

RawTable raw_versions(const Versioned& table) {
  RawTable raw{table.table, {{"uid", Storage::text}, {"site", Storage::integer}}};
  raw.columns.push_back({"from_change", Storage::integer});
  raw.columns.push_back({"to_change", Storage::integer});
  for (const StoredColumn& column : table.columns) {
    raw.columns.push_back({column.stored, is_text(column.type) ? Storage::text : Storage::integer});
  }
  return raw;
}

RawCell raw_cell(const Column& column, std::size_t row) {
  if (column.is_null(row)) return std::monostate{};
  if (is_text(column.type())) return column.text(row);
  return column.integer(row);
}

/// Fills a store in which nothing was ever written; the transaction is open.
class Filler {
 public:
  Filler(Dialect& dialect, const Filling& filling) : dialect_(dialect), filling_(filling) {}

  Result<void> run() {
    SHERD_CHECK(check_empty());
    SHERD_CHECK(put_changes());
    SHERD_CHECK(check_text("site", filling_.site));
    dialect_.sql() << "insert into site (id, code) values (1, :c)", soci::use(filling_.site);
    const long long next = filling_.next_record;
    dialect_.sql() << "insert into record_counter (site, next) values (1, :n)", soci::use(next);
    for (;;) {
      SHERD_TRY(const auto table, filling_.next_table());
      if (!table) break;
      SHERD_CHECK(put_table(*table));
    }
    for (;;) {
      SHERD_TRY(const auto bytes, filling_.next_bytes());
      if (!bytes) break;
      put_bytes(*bytes);
    }
    seal_former_changes(dialect_);
    return {};
  }

 private:
  Result<void> check_empty() {
    long long sites = 0, changes = 0;
    dialect_.sql() << "select (select count(*) from site), (select count(*) from change)", soci::into(sites),
        soci::into(changes);
    if (sites == 0 && changes == 0) return {};
    return fail("store_in_use", "the store holds something already", "Read the archive into a store that is not there");
  }

  Result<void> put_changes() {
    std::int64_t expected = 1;
    for (const Change& change : filling_.changes) {
      if (change.seq != expected++ || change.undoes.value_or(1) < 1 || change.undoes.value_or(0) >= change.seq) {
        return fail("bad_history", fmt::format("the history is broken at change {}", change.seq));
      }
      for (const std::string* text : {&change.uid, &change.at, &change.who, &change.origin, &change.command}) {
        SHERD_CHECK(check_text("change", *text));
      }
      put_change(change);
    }
    for (const MergedFrom& merged : filling_.merged) {
      const long long change = merged.change, base = merged.base;
      dialect_.sql() << "insert into merged_change (change, copy, base) values (:s, :c, :b)", soci::use(change),
          soci::use(merged.copy), soci::use(base);
    }
    return {};
  }

  void put_change(const Change& change) {
    const long long seq = change.seq, undone = change.undoes.value_or(0), added = change.rows_added,
                    changed = change.rows_changed, removed = change.rows_removed;
    soci::indicator has_undone = change.undoes ? soci::i_ok : soci::i_null;
    dialect_.sql() << "insert into change (seq, uid, at, who, origin, command, undoes, rows_added, rows_changed, "
                      "rows_removed) values (:s, :u, :at, :who, :origin, :command, :undoes, :a, :c, :r)",
        soci::use(seq), soci::use(change.uid), soci::use(change.at), soci::use(change.who), soci::use(change.origin),
        soci::use(change.command), soci::use(undone, has_undone), soci::use(added), soci::use(changed),
        soci::use(removed);
  }

  Result<void> put_table(const TableVersions& versions) {
    const Versioned* table = versioned_named(versions.table);
    if (table == nullptr || versions.rows.names() != empty_versions(*table).rows.names()) {
      return fail(ErrorKind::internal, "store_error", fmt::format("the table {} is not known here", versions.table));
    }
    for (std::size_t i = 0; i < versions.rows.names().size(); ++i) {
      for (const std::string& word : versions.rows.columns()[i].words()) {
        SHERD_CHECK(check_text(versions.rows.names()[i], word));
      }
    }
    SHERD_CHECK(check_span(versions));
    const auto writer = dialect_.writer(raw_versions(*table));
    std::vector<RawCell> cells;
    for (std::size_t row = 0; row < versions.rows.rows(); ++row) {
      cells.clear();
      for (std::size_t i = 0; i < versions.rows.columns().size(); ++i) {
        cells.push_back(raw_cell(versions.rows.columns()[i], row));
        if (i == 0) cells.emplace_back(std::int64_t{1});
      }
      writer->add(cells);
    }
    writer->finish();
    return {};
  }

  /// That every version begins with a change that there is, and ends with a later one.
  Result<void> check_span(const TableVersions& versions) const {
    const Column& from = *versions.rows.find("from_change");
    const Column& to = *versions.rows.find("to_change");
    const auto last = static_cast<std::int64_t>(filling_.changes.size());
    for (std::size_t row = 0; row < versions.rows.rows(); ++row) {
      const bool begun = !from.is_null(row) && from.integer(row) >= 1 && from.integer(row) <= last;
      const bool ended = to.is_null(row) || (to.integer(row) > from.integer(row) && to.integer(row) <= last);
      if (begun && ended && !versions.rows.find("uid")->is_null(row)) continue;
      return fail("bad_history", fmt::format("a row of {} belongs to a change that there is not", versions.table));
    }
    return {};
  }

  void put_bytes(const std::string& bytes) {
    const std::string hash = sha256(bytes);
    const auto size = static_cast<std::int64_t>(bytes.size());
    for (std::int64_t at = 0; at < size; at += kChunk) {
      dialect_.put_chunk(
          hash, at / kChunk,
          std::string_view(bytes).substr(static_cast<std::size_t>(at), static_cast<std::size_t>(kChunk)));
    }
  }

  Dialect& dialect_;
  const Filling& filling_;
};

}  // namespace

std::vector<std::string> SqlStore::tables() const {
  std::vector<std::string> names;
  for (const Versioned& table : versioned_tables()) names.push_back(table.table);
  return names;
}

std::optional<TableVersions> SqlStore::empty(const std::string& table) const {
  const Versioned* known = versioned_named(table);
  if (known == nullptr) return std::nullopt;
  return empty_versions(*known);
}

Result<TableVersions> SqlStore::versions(const std::string& site, const std::string& table) {
  return reading([&]() -> Result<TableVersions> {
    const Versioned* known = versioned_named(table);
    if (known == nullptr)
      return fail(ErrorKind::internal, "store_error", fmt::format("the table {} is not known here", table));
    SHERD_TRY(const long long id, site_id(dialect(), site));
    TableVersions out = empty_versions(*known);
    dialect().fetch(fmt::format("select uid, from_change, to_change, {} from {} where site = {} order by uid, "
                                "from_change",
                                known->quoted_columns(), known->table, id),
                    {}, out.rows);
    return out;
  });
}

Result<std::string> SqlStore::bytes(const std::string& sha256_of, std::int64_t size) {
  return reading([&]() -> Result<std::string> {
    std::string bytes;
    for (std::int64_t at = 0; at < size; at += kChunk) dialect().append_chunk(sha256_of, at / kChunk, bytes);
    if (std::ssize(bytes) == size && sha256(bytes) == sha256_of) return bytes;
    return fail("damaged_store", fmt::format("the document {} is not what was kept", sha256_of),
                "Restore the last backup: sherdwright restore BACKUP NEW-STORE");
  });
}

Result<std::int64_t> SqlStore::next_record(const std::string& site) {
  return reading([&]() -> Result<std::int64_t> {
    SHERD_TRY(const long long id, site_id(dialect(), site));
    long long next = 1;
    dialect().sql() << "select next from record_counter where site = :s", soci::use(id), soci::into(next);
    return dialect().sql().got_data() ? next : 1;
  });
}

Result<std::vector<MergedFrom>> SqlStore::merged() {
  return reading([&]() -> Result<std::vector<MergedFrom>> {
    Table rows;
    rows.add("change", CellType::count);
    rows.add("copy", CellType::text);
    rows.add("base", CellType::count);
    dialect().fetch("select change, copy, base from merged_change order by change", {}, rows);
    std::vector<MergedFrom> out;
    for (std::size_t row = 0; row < rows.rows(); ++row) {
      out.push_back(
          {rows.columns()[0].integer(row), std::string(rows.columns()[1].text(row)), rows.columns()[2].integer(row)});
    }
    return out;
  });
}

Result<void> SqlStore::fill(const Filling& filling) {
  if (connection_->writing) return fail(ErrorKind::internal, "writing_open", "a change is being made already");
  bool begun = false;
  auto done = guarded(dialect(), [&]() -> Result<void> {
    dialect().begin_change();
    begun = true;
    SHERD_CHECK(Filler(dialect(), filling).run());
    dialect().sql() << "commit";
    begun = false;
    return {};
  });
  if (begun) roll_back(dialect());
  return done;
}

}  // namespace sherd::store
