#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/result.h"
#include "desk/frame/environment.h"
#include "desk/frame/session.h"

/// Lists and reports that go out numbered and stay in the store under "kind/number".
namespace sherd::desk {

/// The number of the newest issue of that kind ("spot-dates"), 0 where there is none.
Result<std::int64_t> newest_issue(const Session& session, std::string_view kind);

/// What goes out: the file, and what the store keeps of it.
struct Issue {
  std::string_view kind;
  std::int64_t number = 0;
  std::string mime, kept;
  std::string file, bytes;
};

/// Writes the file and keeps the issue, as one: where the file cannot be written nothing is kept, where the store
/// refuses no file is written.
Result<void> send_out(const Session& session, Environment& environment, const Issue& issue);

}  // namespace sherd::desk
