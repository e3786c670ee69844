#include "store/sqlite_errors.h"

#include <fmt/format.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>

namespace sherd::store {

namespace {

int code_of(Handle handle, const std::exception& error) {
  const auto* thrown = dynamic_cast<const soci::sqlite3_soci_error*>(&error);
  const int code = thrown == nullptr ? SQLITE_OK : thrown->result();
  const int exact = handle == nullptr ? SQLITE_OK : sqlite_api::sqlite3_extended_errcode(handle);
  const bool is_error = exact != SQLITE_OK && exact != SQLITE_ROW && exact != SQLITE_DONE;
  return is_error && (thrown == nullptr || (exact & 0xff) == (code & 0xff)) ? exact : code;
}

Error told(std::string code, std::string message, std::string hint, ErrorKind kind = ErrorKind::data) {
  return {kind, std::move(code), std::move(message), {}, std::move(hint)};
}

}  // namespace

Error sqlite_error(Handle handle, const std::string& path, const std::exception& error) {
  const std::string name = path.empty() ? "the store in memory" : path;
  const int code = code_of(handle, error);
  switch (code & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return told("store_busy", fmt::format("another program is writing to {}", name), "Try again when it is done");
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return told("damaged_store", fmt::format("{} is damaged: {}", name, error.what()),
                  "Restore the last backup: sherdwright restore BACKUP NEW-STORE");
    case SQLITE_FULL:
      return told("disk_full",
                  fmt::format("there is no room left on the disk for {}; nothing of this change was kept", name),
                  "Make room on the disk and try again");
    case SQLITE_READONLY:
      return told("read_only", fmt::format("{} cannot be written to", name),
                  "Check the permissions of the file and of its folder");
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
    case SQLITE_AUTH:
      return told("cannot_open", fmt::format("{} cannot be opened", name),
                  "Check the permissions of the file and of its folder");
    case SQLITE_IOERR:
      return told("disk_error", fmt::format("the disk reported an error with {} ({})", name, code),
                  "Check the disk; where the store does not open again, restore the last backup");
    default:
      return told("store_error",
                  fmt::format("the database refused a statement on {} ({}): {}", name, code, error.what()),
                  "This is a fault of the program: please report it", ErrorKind::internal);
  }
}

}  // namespace sherd::store
