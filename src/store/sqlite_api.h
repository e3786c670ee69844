#pragma once

#include <memory>
#include <string>
#include <string_view>

// SOCI wraps the library's C interface in a namespace of its own.
namespace sqlite_api {
struct sqlite3;
struct sqlite3_stmt;
}  // namespace sqlite_api

/// For the sources of the SQLite dialect only.
namespace sherd::store {

using Handle = sqlite_api::sqlite3*;

struct CloseHandle {
  void operator()(Handle handle) const;
};
using OwnedHandle = std::unique_ptr<sqlite_api::sqlite3, CloseHandle>;

struct Finalise {
  void operator()(sqlite_api::sqlite3_stmt* statement) const;
};
using Statement = std::unique_ptr<sqlite_api::sqlite3_stmt, Finalise>;

/// Throws soci::sqlite3_soci_error, as SOCI itself does.
[[noreturn]] void throw_sqlite(Handle handle, std::string_view doing);
Statement prepare(Handle handle, std::string_view query);
/// False once there are no more rows.
bool step(Handle handle, sqlite_api::sqlite3_stmt* statement);

/// `file:` address of a path (percent-encoded, so that blanks and quotes pass through SOCI's own syntax).
/// `mode`: ro, rw, rwc.
std::string file_uri(const std::string& path, std::string_view mode);
/// A quoted name that is no column is an error from here on, not a text (sqlite.org/quirks.html, section 8).
void refuse_unknown_names(Handle handle);
OwnedHandle open_handle(const std::string& path, std::string_view mode);

/// To be called before anything else of SQLite. Once a process.
void prepare_sqlite();
/// Counts the recoveries that SQLite reports in this thread: frames of a write-ahead log that a process left behind.
class RecoveryWatch {
 public:
  RecoveryWatch();
  ~RecoveryWatch();
  RecoveryWatch(const RecoveryWatch&) = delete;
  RecoveryWatch& operator=(const RecoveryWatch&) = delete;
  bool recovered() const { return recovered_; }

 private:
  friend void note_sqlite_message(void*, int code, const char* text);
  bool recovered_ = false;
};

}  // namespace sherd::store
