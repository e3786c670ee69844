#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/result.h"
#include "desk/frame/environment.h"

namespace sherd::desk {

/// A store that was opened at this machine by its user.
struct RecentStore {
  std::string path;         ///< absolute
  std::string code, title;  ///< of its site, when it was last opened
  std::string opened_at;    ///< ISO 8601 UTC
  std::int64_t port = 0;    ///< where it was served: there the browser keeps what was not sent yet

  template <class V>
  static void fields(V& v) {
    v.field("path", &RecentStore::path, required_option("the store"));
    v.field("code", &RecentStore::code, option("its site"));
    v.field("title", &RecentStore::title, option("the site's title"));
    v.field("opened_at", &RecentStore::opened_at, option("when"));
    v.field("port", &RecentStore::port, option("where"));
  }
};

/// The stores opened lately, newest first, in a file that only its user may read. A file that cannot be understood is
/// as good as none: the list is a convenience and the stores are elsewhere.
class RecentStores {
 public:
  static constexpr std::size_t kMost = 20;

  /// `folder` is made when something is first noted.
  RecentStores(Files& files, std::string folder) : files_(files), folder_(std::move(folder)) {}

  std::vector<RecentStore> all() const;
  /// Puts it first. The address of a store on a server is not noted: it may hold a password. Errors: those of writing.
  Result<void> note(const RecentStore& store);
  Result<void> forget(const std::string& path);

 private:
  Result<void> write(const std::vector<RecentStore>& stores);

  Files& files_;
  std::string folder_;
};

}  // namespace sherd::desk
