#include "store/transfer.h"

#include <fmt/format.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>

#include <cstdint>
#include <functional>

#include "store/change_hash.h"
#include "store/migrations.h"
#include "store/sqlite_dialect.h"
#include "store/sqlite_file.h"
#include "store/sqlite_raw.h"

namespace sherd::store {

namespace {

std::int64_t copy_rows(const Scan& scan, Dialect& into, const RawTable& table) {
  const auto writer = into.writer(table);
  std::int64_t rows = 0;
  scan(table, [&](RawRow row) {
    writer->add(row);
    ++rows;
  });
  writer->finish();
  return rows;
}

Result<void> copy_tables(const Scan& scan, Dialect& into, const std::vector<RawTable>& tables) {
  // Making the tables has noted the version of the schema, which comes with the rows.
  into.sql() << "delete from meta";
  for (const RawTable& table : tables) {
    const std::int64_t rows = copy_rows(scan, into, table);
    long long there = 0;
    into.sql() << "select count(*) from " + table.name, soci::into(there);
    if (there == rows) continue;
    return fail(ErrorKind::internal, "store_error",
                fmt::format("{} of {} rows of {} arrived; nothing was kept", there, rows, table.name));
  }
  return {};
}

/// Runs `work`, in which either database may fail; each says in its own words what went wrong.
template <class Work>
Result<void> between(Dialect& sqlite, Dialect& other, Work work) {
  try {
    return work();
  } catch (const soci::sqlite3_soci_error& error) {
    return std::unexpected(sqlite.classify(error));
  } catch (const std::exception& error) {
    return std::unexpected(other.classify(error));
  }
}

Result<void> fill(Dialect& from, const std::string& part) {
  SHERD_TRY(const auto into, connect_new_sqlite(part, {}));
  SHERD_CHECK(migrate(*into, migrations()));
  bool reading = false;
  auto done = between(*into, from, [&]() -> Result<void> {
    // Rows come table by table; what they refer to is checked at the end.
    into->sql() << "pragma foreign_keys = off";
    into->sql() << "begin immediate";
    from.sql() << "begin isolation level repeatable read read only";
    reading = true;
    SHERD_CHECK(copy_tables(scan_of(from), *into, raw_tables(open_handle(part, "rw").get())));
    into->sql() << "commit";
    return {};
  });
  if (reading) roll_back(from);
  SHERD_CHECK(done);
  return between(*into, from, [&]() -> Result<void> {
    std::string mode;  // a single file that needs nothing beside it, wherever it is carried
    into->sql() << "pragma journal_mode = delete", soci::into(mode);
    SHERD_TRY(auto problems, into->verify());
    if (problems.empty()) problems = content_problems(scan_of(*into), hashed_tables());
    if (problems.empty()) return {};
    return fail("damaged_store", "the copy was not kept, it is damaged: " + problems.front(),
                "Check the store itself; where it is damaged, restore the last backup");
  });
}

}  // namespace

Result<void> store_to_file(Dialect& from, const std::string& file) {
  if (file_exists(file)) {
    return fail("store_exists", fmt::format("{} is there already", file), "Give a name that is not taken");
  }
  SHERD_CHECK(check_local(file));
  sweep_leftovers(file);
  const std::string part = name_beside(file, "part");
  auto done = fill(from, part);
  if (done) done = put_in_place(part, file);
  if (!done) discard(part);
  return done;
}

Result<void> file_to_store(Handle file, Dialect& into) {
  step(file, prepare(file, "begin").get());
  SHERD_CHECK(
      copy_tables([&](const RawTable& table, const std::function<void(RawRow)>& row) { scan_sqlite(file, table, row); },
                  into, raw_tables(file)));
  step(file, prepare(file, "commit").get());
  const auto problems = content_problems(scan_of(into), hashed_tables());
  if (problems.empty()) return {};
  return fail("damaged_store", "nothing was kept, what arrived is damaged: " + problems.front(), "Try an older backup");
}

}  // namespace sherd::store
