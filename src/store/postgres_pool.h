#pragma once

#include <memory>
#include <string>

#include "base/result.h"
#include "store/store.h"

namespace sherd::store {

/// Connections to stores on servers, kept open from one use to the next: to connect and to look whether all tables are
/// there takes longer than to add a line. May be used by several threads at a time.
class PostgresPool {
 public:
  PostgresPool();

  /// The store at an address on a server, as `open` gives it; its connection comes back here when the store, and what
  /// is being written in it, are gone. One that was lost meanwhile, or whose store has another version now, is not used
  /// again. Errors: those of `open`.
  Result<std::unique_ptr<Store>> open(const std::string& address);

 private:
  class Idle;
  std::shared_ptr<Idle> idle_;
};

}  // namespace sherd::store
