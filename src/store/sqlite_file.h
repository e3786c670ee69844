#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "store/sqlite_api.h"

/// A store's file as seen from outside the database. Nothing here opens the file itself: closing it would drop the
/// locks that the process holds on it through SQLite.
namespace sherd::store {

/// "SHRD" in the file's header tells a store from any other database. Do not change.
constexpr std::int32_t kApplicationId = 0x53485244;

bool file_exists(const std::string& path);
/// `no_store` (naming a write-ahead log that lies there without its store), `not_a_store`, `network_folder`.
Result<void> check_store_path(const std::string& path);
/// Whether `magic`, the type that statfs(2) gives, is that of a file system over the network.
bool is_network_file_system(std::int64_t magic);
/// The type of the file system with that device number, by the text of /proc/self/mountinfo (proc_pid_mountinfo(5));
/// "" where it does not say.
std::string mount_type(std::string_view mountinfo, unsigned major, unsigned minor);
/// Whether a file system of that type, which answers as FUSE does, may have a network behind it.
bool may_be_network(std::string_view type);
/// `network_folder` where the folder of `path` is on one.
Result<void> check_local(const std::string& path);
/// The header of an open database: `not_a_store`, or `damaged_store` where the file is shorter than it says.
Result<void> check_header(Handle handle, const std::string& path);

/// A name beside `path` that is not taken: "path.word-1234".
std::string name_beside(const std::string& path, const std::string& word);
/// Renames within one folder without ever overwriting, and makes that last (fsync of the folder). `store_exists`.
Result<void> put_in_place(const std::string& from, const std::string& path);
/// Removes a file that was never put in place, and what SQLite may have laid beside it.
void discard(const std::string& path);

/// Removes what killed programs left half-written in the folder of `path` a day ago or more: NAME.part-1234 and
/// NAME.new-1234 that are stores, with what lies beside them.
void sweep_leftovers(const std::string& path);

/// Copies the whole database as one reader sees it to `path`, which must not exist: written beside, checked in full,
/// renamed. Waits `busy_ms` for locks. Throws what the library throws.
Result<void> copy_checked(Handle from, const std::string& path, int busy_ms);
/// What SQLite's own checks say of the file, and where its schema is not what it should be; empty when sound.
std::vector<std::string> integrity_problems(Handle handle);
/// The same, and what every change wrote, where the file has the hashes of it. Reads all of it.
std::vector<std::string> store_problems(Handle handle);

}  // namespace sherd::store
