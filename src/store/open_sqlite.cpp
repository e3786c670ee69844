#include "store/open_sqlite.h"

#include <fmt/format.h>
#include <soci/soci.h>

#include "store/migrations.h"
#include "store/sql_store.h"
#include "store/sqlite_errors.h"
#include "store/sqlite_file.h"
#include "store/sqlite_schema.h"

namespace sherd::store {

namespace {

std::unexpected<Error> taken(const std::string& path) {
  return fail("store_exists", fmt::format("{} is there already", path), "Give a name that is not taken");
}

Result<void> check_free(const std::string& path) {
  if (file_exists(path)) return taken(path);
  SHERD_CHECK(check_local(path));
  if (!file_exists(path + "-wal")) return {};
  return fail("orphan_log", fmt::format("{}-wal is there: it holds changes of a store that was called {}", path, path),
              "Put that store back beside it, or move the log away first");
}

Result<void> check_schema(Dialect& dialect, const std::string& path) {
  return guarded(dialect, [&]() -> Result<void> {
    const std::vector<std::string> problems = schema_problems(dialect);
    if (problems.empty()) return {};
    return fail("damaged_store", fmt::format("{} is damaged: {}", path, problems.front()),
                "Restore the last backup: sherdwright restore BACKUP NEW-STORE");
  });
}

Result<std::int64_t> version_of(Dialect& dialect) {
  return guarded(dialect, [&]() -> Result<std::int64_t> { return schema_version(dialect); });
}

/// A backup beside the store, under a name that no earlier attempt has taken.
Result<void> back_up_before(Dialect& dialect, const std::string& path, std::size_t version) {
  const std::string name = fmt::format("{}.before-{}", path, version);
  std::string free = name;
  for (int n = 2; file_exists(free); ++n) free = fmt::format("{}.{}", name, n);
  return dialect.backup(free);
}

}  // namespace

Result<std::unique_ptr<Store>> open_sqlite(const std::string& path, const SqliteOptions& options,
                                           std::span<const std::string_view> steps) {
  SHERD_TRY(auto dialect, connect_sqlite(path, options));
  auto version = version_of(*dialect);
  if (!version && version.error().code == "store_error") {
    return fail("damaged_store", fmt::format("{} is damaged: it does not say which version it is", path),
                "Restore the last backup: sherdwright restore BACKUP NEW-STORE");
  }
  SHERD_CHECK(version);
  const auto newest = static_cast<std::int64_t>(steps.size());
  if (*version > newest) {
    return fail("newer_store",
                fmt::format("{} was written by a newer version of the program (schema {}, known here {})", path,
                            *version, newest),
                "Open it with that version, or a later one");
  }
  SHERD_CHECK(check_schema(*dialect, path));
  if (*version < newest) {
    SHERD_CHECK(back_up_before(*dialect, path, steps.size()));
    SHERD_CHECK(migrate(*dialect, steps));
  }
  return std::make_unique<SqlStore>(std::move(dialect));
}

Result<std::unique_ptr<Store>> create_sqlite(const std::string& path, const SqliteOptions& options,
                                             std::span<const std::string_view> steps) {
  SHERD_CHECK(check_free(path));
  // Made under another name first, so that no half-made store is ever found under its own.
  sweep_leftovers(path);
  const std::string part = name_beside(path, "new");
  auto made = [&]() -> Result<void> {
    SHERD_TRY(const auto dialect, connect_new_sqlite(part, options));
    SHERD_CHECK(migrate(*dialect, steps));
    // All of it in the file itself before that gets its name; closing would not tell that this failed.
    return guarded(*dialect, [&]() -> Result<void> {
      dialect->sql() << "pragma wal_checkpoint(truncate)";
      return {};
    });
  }();
  if (made) made = put_in_place(part, path);
  if (!made) {
    discard(part);
    return std::unexpected(made.error());
  }
  return open_sqlite(path, options, steps);
}

Result<void> restore_sqlite(const std::string& file, const std::string& path) {
  SHERD_CHECK(check_free(path));
  SHERD_CHECK(check_store_path(file));
  OwnedHandle source;
  try {
    source = open_handle(file, "ro");
    SHERD_CHECK(check_header(source.get(), file));
    const std::vector<std::string> problems = integrity_problems(source.get());
    if (problems.empty()) return copy_checked(source.get(), path, SqliteOptions{}.busy_ms);
    return fail("damaged_store", fmt::format("{} is damaged, nothing was restored: {}", file, problems.front()),
                "Try an older backup");
  } catch (const std::exception& error) {
    return std::unexpected(sqlite_error(source.get(), file, error));
  }
}

Result<std::unique_ptr<Store>> sqlite_in_memory() {
  SHERD_TRY(auto dialect, connect_sqlite_in_memory());
  SHERD_CHECK(migrate(*dialect, migrations()));
  return std::make_unique<SqlStore>(std::move(dialect));
}

}  // namespace sherd::store
