#pragma once

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/child_process.h"
#include "base/result.h"
#include "store/store.h"

namespace sherd::desk {

/// Files as the desk sees them. An in-memory fake stands in `memory_files.h`.
class Files {
 public:
  virtual ~Files() = default;
  /// Errors: `no_file`, `not_readable`, `file_too_large`.
  virtual Result<std::string> read(const std::string& path) = 0;
  /// Written beside and renamed, so that a reader never sees half a file.
  virtual Result<void> write(const std::string& path, std::string_view bytes) = 0;
  /// The same, for nobody's eyes but the user's.
  virtual Result<void> write_private(const std::string& path, std::string_view bytes) = 0;
  virtual bool exists(const std::string& path) = 0;
  virtual Result<void> make_folder(const std::string& path) = 0;
  virtual Result<void> remove(const std::string& path) = 0;
  virtual bool is_folder(const std::string& path) = 0;
  /// All files below a folder, by their paths in it, in the order of their bytes. Errors: `no_file`, `not_readable`.
  virtual Result<std::vector<std::string>> list(const std::string& folder) = 0;
  /// Gives a file or folder another name in one step; an empty folder of that name gives way.
  virtual Result<void> move(const std::string& from, const std::string& to) = 0;
  /// With all that is in it.
  virtual Result<void> remove_folder(const std::string& folder) = 0;
};

struct ServeRequest;
class KeptLines;

/// Everything from outside that a use case may ask for; made in main.
struct Environment {
  std::string version;
  std::string user;                      ///< who works, for the history
  std::function<std::string()> now;      ///< ISO 8601 UTC
  std::function<std::string()> new_uid;  ///< 32 random hexadecimal digits
  Files* files = nullptr;
  ChildProcess* processes = nullptr;
  std::function<Result<std::unique_ptr<Store>>(const std::string&)> create_store;
  std::function<Result<std::unique_ptr<Store>>(const std::string&)> open_store;
  std::function<Result<void>(const std::string& file, const std::string& address)> restore_store;
  /// Tells of changes as they are committed, by this process or another.
  std::function<Result<std::unique_ptr<ChangeFeed>>(const std::string&)> open_feed = {};
  /// Lines in short that outlive a request; none: each request reads what it needs.
  std::shared_ptr<KeptLines> kept_lines = {};
  /// Serves the workbench until stopped; announces its address itself.
  std::function<Result<void>(const ServeRequest&, const Environment&)> serve = {};
};

}  // namespace sherd::desk
