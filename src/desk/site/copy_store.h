#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct CopyRequest {
  std::string store, file;
  std::optional<std::int64_t> lease;
  std::string site, name;

  template <class V>
  static void fields(V& v) {
    v.field("store", &CopyRequest::store, argument("the store"));
    v.field("file", &CopyRequest::file, argument("the copy to make; must not exist"));
    v.field("lease", &CopyRequest::lease, option("how many record numbers the copy may give, for each site; 500"));
    v.field("site", &CopyRequest::site, option("lease numbers for this site alone"));
    v.field("name", &CopyRequest::name, option("what to call the copy in lists of conflicts; the file's name"));
  }
};

struct LeasedBlock {
  std::string site;
  std::int64_t first = 0, last = 0;

  template <class V>
  static void fields(V& v) {
    v.field("site", &LeasedBlock::site);
    v.field("first", &LeasedBlock::first);
    v.field("last", &LeasedBlock::last);
  }
};

/// `change`: the newest of the store that the copy holds.
struct CopyResponse : Reply {
  std::string file, name;
  std::int64_t change = 0;
  std::vector<LeasedBlock> leased;

  template <class V>
  static void fields(V& v) {
    v.field("file", &CopyResponse::file);
    v.field("name", &CopyResponse::name);
    v.field("change", &CopyResponse::change);
    v.field("leased", &CopyResponse::leased);
  }
};

/// A copy to work on away from the store, with record numbers of its own; `merge` brings it back. Errors: those of the
/// store; `bad_lease`, `store_exists`, `no_site`.
Result<CopyResponse> copy_store(const CopyRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
