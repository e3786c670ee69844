#include "store/sqlite_api.h"

#include <fmt/format.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>

namespace sherd::store {

namespace {
thread_local RecoveryWatch* watch_of_this_thread = nullptr;
}

void CloseHandle::operator()(Handle handle) const { sqlite_api::sqlite3_close(handle); }
void Finalise::operator()(sqlite_api::sqlite3_stmt* statement) const { sqlite_api::sqlite3_finalize(statement); }

void note_sqlite_message(void*, int code, const char*) {
  if (code == SQLITE_NOTICE_RECOVER_WAL && watch_of_this_thread != nullptr) watch_of_this_thread->recovered_ = true;
}

RecoveryWatch::RecoveryWatch() { watch_of_this_thread = this; }
RecoveryWatch::~RecoveryWatch() { watch_of_this_thread = nullptr; }

void prepare_sqlite() {
  static const bool kDone = [] {
    // A connection is used by one thread at a time (see Store): no lock around every cell.
    sqlite_api::sqlite3_config(SQLITE_CONFIG_MULTITHREAD);
    sqlite_api::sqlite3_config(SQLITE_CONFIG_URI, 1);
    sqlite_api::sqlite3_config(SQLITE_CONFIG_LOG, note_sqlite_message, nullptr);
    return true;
  }();
  static_cast<void>(kDone);
}

void throw_sqlite(Handle handle, std::string_view doing) {
  const std::string text = fmt::format("{}: {}", doing, sqlite_api::sqlite3_errmsg(handle));
  throw soci::sqlite3_soci_error(text, sqlite_api::sqlite3_extended_errcode(handle));
}

Statement prepare(Handle handle, std::string_view query) {
  sqlite_api::sqlite3_stmt* statement = nullptr;
  const int code =
      sqlite_api::sqlite3_prepare_v2(handle, query.data(), static_cast<int>(query.size()), &statement, nullptr);
  if (code != SQLITE_OK) throw_sqlite(handle, query);
  return Statement(statement);
}

bool step(Handle handle, sqlite_api::sqlite3_stmt* statement) {
  const int code = sqlite_api::sqlite3_step(statement);
  if (code == SQLITE_ROW) return true;
  if (code != SQLITE_DONE) throw_sqlite(handle, sqlite_api::sqlite3_sql(statement));
  return false;
}

std::string file_uri(const std::string& path, std::string_view mode) {
  std::string uri = "file:";
  for (const char c : path) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '/' ||
                       c == '.' || c == '-' || c == '_';
    if (plain) {
      uri += c;
    } else {
      uri += fmt::format("%{:02X}", static_cast<unsigned char>(c));
    }
  }
  return fmt::format("{}?mode={}", uri, mode);
}

void refuse_unknown_names(Handle handle) {
  sqlite_api::sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DML, 0, nullptr);
  sqlite_api::sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DDL, 0, nullptr);
}

OwnedHandle open_handle(const std::string& path, std::string_view mode) {
  prepare_sqlite();
  Handle handle = nullptr;
  const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_URI;
  const int code = sqlite_api::sqlite3_open_v2(file_uri(path, mode).c_str(), &handle, flags, nullptr);
  OwnedHandle owned(handle);
  if (code != SQLITE_OK) throw_sqlite(handle, path);
  refuse_unknown_names(handle);
  return owned;
}

}  // namespace sherd::store
