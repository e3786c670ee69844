#include <fmt/format.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>

#include <algorithm>
#include <chrono>
#include <thread>

#include "store/change_hash.h"
#include "store/sqlite_file.h"
#include "store/sqlite_raw.h"
#include "store/sqlite_schema.h"

namespace sherd::store {

namespace {

constexpr int kMostProblems = 100;

std::string text_of(sqlite_api::sqlite3_stmt* statement, int column) {
  const unsigned char* text = sqlite_api::sqlite3_column_text(statement, column);
  return text == nullptr ? std::string() : std::string(reinterpret_cast<const char*>(text));
}

void copy_pages(Handle from, Handle to, int busy_ms) {
  sqlite_api::sqlite3_backup* backup = sqlite_api::sqlite3_backup_init(to, "main", from, "main");
  if (backup == nullptr) throw_sqlite(to, "backup");
  int code = SQLITE_OK;
  for (int waited = 0; waited <= busy_ms; waited += 20) {
    code = sqlite_api::sqlite3_backup_step(backup, -1);
    if (code != SQLITE_BUSY && code != SQLITE_LOCKED) break;
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
  const int finished = sqlite_api::sqlite3_backup_finish(backup);
  if (code == SQLITE_BUSY || code == SQLITE_LOCKED) throw soci::sqlite3_soci_error("backup: locked", code);
  if (finished != SQLITE_OK) throw soci::sqlite3_soci_error("backup", finished);
}

/// By SQLite itself; then what of the schema it cannot know.
std::vector<std::string> problems_in(Handle handle) {
  std::vector<std::string> problems;
  const Statement check = prepare(handle, fmt::format("pragma integrity_check({})", kMostProblems));
  while (step(handle, check.get())) {
    if (std::string text = text_of(check.get(), 0); text != "ok") problems.push_back(std::move(text));
  }
  if (problems.empty()) problems = schema_problems(handle);
  if (!problems.empty()) return problems;
  const Statement references = prepare(handle, "pragma foreign_key_check");
  for (int n = 0; n < kMostProblems && step(handle, references.get()); ++n) {
    problems.push_back(fmt::format("row {} of {} names a {} that is not there", text_of(references.get(), 1),
                                   text_of(references.get(), 0), text_of(references.get(), 2)));
  }
  // We never set it; it stands in the header, which no check of SQLite's looks at.
  const Statement version = prepare(handle, "pragma user_version");
  if (step(handle, version.get()) && sqlite_api::sqlite3_column_int64(version.get(), 0) != 0) {
    problems.emplace_back("the header of the file is damaged");
  }
  return problems;
}

}  // namespace

std::vector<std::string> integrity_problems(Handle handle) {
  try {
    return problems_in(handle);
  } catch (const soci::sqlite3_soci_error& error) {
    // SQLite takes a schema whose words are altered for a wrong question.
    if ((error.result() & 0xff) != SQLITE_ERROR) throw;
    return {fmt::format("the schema is damaged: {}", error.what())};
  }
}

std::vector<std::string> store_problems(Handle handle) {
  step(handle, prepare(handle, "begin").get());
  std::vector<std::string> problems = integrity_problems(handle);
  if (problems.empty()) {
    const std::vector<RawTable> tables = raw_tables(handle);
    const Scan scan = [&](const RawTable& table, const std::function<void(RawRow)>& row) {
      scan_sqlite(handle, table, row);
    };
    if (std::ranges::find(tables, "change_hash", &RawTable::name) != tables.end()) {
      problems = content_problems(scan, hashed_tables(tables));
    }
  }
  step(handle, prepare(handle, "rollback").get());
  return problems;
}

Result<void> copy_checked(Handle from, const std::string& path, int busy_ms) {
  if (file_exists(path)) {
    return fail("store_exists", fmt::format("{} is there already", path), "Give a name that is not taken");
  }
  sweep_leftovers(path);
  const std::string part = name_beside(path, "part");
  struct Discard {
    const std::string& name;
    ~Discard() { discard(name); }
  } const on_leaving{part};
  {
    const OwnedHandle to = open_handle(part, "rwc");
    copy_pages(from, to.get(), busy_ms);
    // A single file that needs nothing beside it, wherever it is carried.
    step(to.get(), prepare(to.get(), "pragma journal_mode = delete").get());
    const std::vector<std::string> problems = store_problems(to.get());
    if (!problems.empty()) {
      return fail("damaged_store", fmt::format("the copy {} was not kept, it is damaged: {}", path, problems.front()),
                  "Check the store itself; where it is damaged, restore the last backup");
    }
  }
  return put_in_place(part, path);
}

}  // namespace sherd::store
