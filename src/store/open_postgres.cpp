#include "store/open_postgres.h"

#include <fmt/format.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>
#include <stdlib.h>

#include <filesystem>
#include <set>
#include <utility>
#include <vector>

#include "store/migrations.h"
#include "store/open_sqlite.h"
#include "store/postgres_dialect.h"
#include "store/sql_store.h"
#include "store/sqlite_errors.h"
#include "store/sqlite_file.h"
#include "store/transfer.h"

namespace sherd::store {

namespace {

/// What is seen of a database before anything of ours is read.
struct Found {
  bool has_schema = false, has_store = false;
};

std::vector<std::string> words_of(Dialect& dialect, const std::string& query) {
  Table rows;
  rows.add("word", CellType::text);
  dialect.fetch(query, {}, rows);
  std::vector<std::string> words;
  for (std::size_t row = 0; row < rows.rows(); ++row) words.emplace_back(rows.columns()[0].text(row));
  return words;
}

/// Looks at the catalogue only, which anyone may read. Throws what the database throws.
Result<Found> look_at(Dialect& dialect, const PostgresAddress& address, std::vector<std::string>& warnings) {
  Table row;
  for (const char* name : {"encoding", "fsync", "pages", "schema", "store"}) row.add(name, CellType::text);
  dialect.fetch(
      fmt::format("select current_setting('server_encoding'), current_setting('fsync'), "
                  "current_setting('full_page_writes'), (select 'yes' from pg_namespace where nspname = '{0}'), "
                  "(select 'yes' from pg_tables where schemaname = '{0}' and tablename = 'meta')",
                  kSchema),
      {}, row);
  const auto is = [&](std::size_t column, std::string_view word) { return row.columns()[column].text(0) == word; };
  if (!is(0, "UTF8")) {
    return fail(
        "not_a_store",
        fmt::format("the database {} keeps text as {}, not as UTF-8", address.database, row.columns()[0].text(0)),
        fmt::format("Make another one: create database \"{}\" encoding 'UTF8' template template0", address.database));
  }
  if (!is(1, "on") || !is(2, "on")) {
    warnings.push_back(
        fmt::format("The server at {} does not make sure that what is kept is on its disk (fsync or "
                    "full_page_writes is off): after a power cut changes may be lost or damaged.",
                    address.server()));
  }
  return Found{is(3, "yes"), is(4, "yes")};
}

/// The version of the schema; 0 where it does not say. By its full name the table is refused, not missed, where there
/// is no right to it.
std::int64_t version_on(Dialect& dialect) {
  const auto found = words_of(dialect, fmt::format("select value from {}.meta where name = 'schema_version'", kSchema));
  return found.empty() ? 0 : std::stoll(found.front());
}

Error damaged(const PostgresAddress& address, const std::string& what) {
  return {ErrorKind::data,
          "damaged_store",
          fmt::format("{} is damaged: {}", address.shown, what),
          {},
          "Restore the last backup: sherdwright restore BACKUP NEW-STORE"};
}

Error not_a_store(const PostgresAddress& address) {
  return {ErrorKind::data,
          "not_a_store",
          fmt::format("the database {} holds no store", address.database),
          {},
          fmt::format("Make one in it: sherdwright new {} --site CODE", address.shown)};
}

/// That every column that we know is there, asked for at once.
Result<void> check_tables(Dialect& dialect, const PostgresAddress& address) {
  const auto there = words_of(dialect, fmt::format("select table_name || '.' || column_name from "
                                                   "information_schema.columns where table_schema = '{}'",
                                                   kSchema));
  const std::set<std::string> known(there.begin(), there.end());
  for (const Versioned& table : versioned_tables()) {
    std::vector<std::string> wanted{"uid", "site", "from_change", "to_change"};
    for (const StoredColumn& column : table.columns) wanted.push_back(column.stored);
    for (const std::string& column : wanted) {
      if (known.contains(table.table + "." + column)) continue;
      return fail(damaged(address, fmt::format("the table {} is not as it should be", table.table)));
    }
  }
  return {};
}

/// A copy of all tables in a schema beside ours, under a name that no earlier attempt has taken.
void keep_former(Dialect& dialect, std::size_t version) {
  soci::session& sql = dialect.sql();
  const std::string name = fmt::format("{}_before_{}", kSchema, version);
  std::string free = name;
  const auto taken = [&] {
    return !words_of(dialect, fmt::format("select nspname::text from pg_namespace where nspname = '{}'", free)).empty();
  };
  for (int n = 2; taken(); ++n) free = fmt::format("{}_{}", name, n);
  sql << "create schema " + free;
  for (const std::string& table :
       words_of(dialect, fmt::format("select tablename::text from pg_tables where schemaname = '{}'", kSchema))) {
    sql << fmt::format("create table {}.{} as table {}.{}", free, table, kSchema, table);
  }
}

/// Runs `work` as a writer: all of it is kept, or nothing.
template <class Work>
Result<void> as_writer(Dialect& dialect, Work work) {
  auto done = guarded(dialect, [&]() -> Result<void> {
    dialect.begin_change();
    SHERD_CHECK(work());
    dialect.sql() << "commit";
    return {};
  });
  if (!done) roll_back(dialect);
  return done;
}

Result<void> lead_forward(Dialect& dialect, std::span<const std::string_view> steps) {
  return as_writer(dialect, [&]() -> Result<void> {
    // Someone else may have done it while we waited.
    if (schema_version(dialect) >= static_cast<std::int64_t>(steps.size())) return {};
    keep_former(dialect, steps.size());
    run_steps(dialect, steps);
    return {};
  });
}

/// Empty tables in a database that has none of ours; within a transaction of a writer.
Result<void> make_tables(Dialect& dialect, const PostgresAddress& address, std::span<const std::string_view> steps) {
  std::vector<std::string> unused;
  SHERD_TRY(const Found found, look_at(dialect, address, unused));
  if (found.has_store) {
    return fail("store_exists", fmt::format("the database {} holds a store already", address.database),
                "Give the name of a database that holds none");
  }
  if (!found.has_schema) dialect.sql() << fmt::format("create schema {}", kSchema);
  run_steps(dialect, steps);
  return {};
}

struct TemporaryFolder {
  TemporaryFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "sherds-XXXXXX").string();
    if (::mkdtemp(name.data()) != nullptr) path = name;
  }
  ~TemporaryFolder() {
    std::error_code ignored;
    if (!path.empty()) std::filesystem::remove_all(path, ignored);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  std::string path;
};

std::int64_t version_in(Handle file) {
  const Statement select = prepare(file, "select cast(value as integer) from meta where name = 'schema_version'");
  return step(file, select.get()) ? sqlite_api::sqlite3_column_int64(select.get(), 0) : 0;
}

Result<void> put_in(Handle file, const std::string& name, const std::string& address) {
  SHERD_TRY(const PostgresAddress place, read_postgres_address(address, {}));
  SHERD_TRY(const auto dialect, connect_postgres(place));
  return as_writer(*dialect, [&]() -> Result<void> {
    SHERD_CHECK(make_tables(*dialect, place, migrations()));
    try {
      return file_to_store(file, *dialect);
    } catch (const soci::sqlite3_soci_error& error) {
      return std::unexpected(sqlite_error(file, name, error));
    }
  });
}

}  // namespace

Result<OpenedPostgres> connect_to_store(const PostgresAddress& place, std::span<const std::string_view> steps) {
  SHERD_TRY(auto dialect, connect_postgres(place));
  std::vector<std::string> warnings;
  SHERD_TRY(const Found found,
            guarded(*dialect, [&]() -> Result<Found> { return look_at(*dialect, place, warnings); }));
  if (!found.has_store) return fail(not_a_store(place));
  SHERD_TRY(const std::int64_t version,
            guarded(*dialect, [&]() -> Result<std::int64_t> { return version_on(*dialect); }));
  if (version == 0) return fail(damaged(place, "it does not say which version it is"));
  const auto newest = static_cast<std::int64_t>(steps.size());
  if (version > newest) {
    return fail("newer_store",
                fmt::format("{} was written by a newer version of the program (schema {}, known here {})", place.shown,
                            version, newest),
                "Open it with that version, or a later one");
  }
  if (version < newest) SHERD_CHECK(lead_forward(*dialect, steps));
  SHERD_CHECK(guarded(*dialect, [&]() -> Result<void> { return check_tables(*dialect, place); }));
  return OpenedPostgres{std::move(dialect), std::move(warnings)};
}

bool is_up_to_date(Dialect& dialect, std::span<const std::string_view> steps) {
  const auto version = guarded(dialect, [&]() -> Result<std::int64_t> { return version_on(dialect); });
  return version && *version == static_cast<std::int64_t>(steps.size());
}

Result<std::unique_ptr<Store>> open_postgres(const std::string& address, const PostgresOptions& options,
                                             std::span<const std::string_view> steps) {
  SHERD_TRY(const PostgresAddress place, read_postgres_address(address, options));
  SHERD_TRY(OpenedPostgres opened, connect_to_store(place, steps));
  return std::make_unique<SqlStore>(std::move(opened.dialect), std::move(opened.warnings));
}

Result<std::unique_ptr<Store>> create_postgres(const std::string& address, const PostgresOptions& options,
                                               std::span<const std::string_view> steps) {
  SHERD_TRY(const PostgresAddress place, read_postgres_address(address, options));
  {
    SHERD_TRY(const auto dialect, connect_postgres(place));
    SHERD_CHECK(as_writer(*dialect, [&]() -> Result<void> { return make_tables(*dialect, place, steps); }));
  }
  return open_postgres(address, options, steps);
}

Result<void> restore_postgres(const std::string& file, const std::string& address) {
  SHERD_CHECK(check_store_path(file));
  OwnedHandle source;
  try {
    source = open_handle(file, "ro");
    SHERD_CHECK(check_header(source.get(), file));
    if (const auto problems = store_problems(source.get()); !problems.empty()) {
      return fail("damaged_store", fmt::format("{} is damaged, nothing was restored: {}", file, problems.front()),
                  "Try an older backup");
    }
    if (version_in(source.get()) == static_cast<std::int64_t>(migrations().size())) {
      return put_in(source.get(), file, address);
    }
    // The backup stays as it is: a copy of it is led forward, or refused where it is newer.
    const TemporaryFolder folder;
    const std::string copy = folder.path + "/copy";
    SHERD_CHECK(copy_checked(source.get(), copy, SqliteOptions{}.busy_ms));
    SHERD_CHECK(open_sqlite(copy, {}, migrations()));
    return put_in(open_handle(copy, "ro").get(), file, address);
  } catch (const std::exception& error) {
    return std::unexpected(sqlite_error(source.get(), file, error));
  }
}

}  // namespace sherd::store
