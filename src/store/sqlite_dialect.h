#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "store/dialect.h"

namespace sherd::store {

struct SqliteOptions {
  int busy_ms = 5000;           ///< how long to wait for another writer
  std::int64_t most_pages = 0;  ///< the size at which the disk counts as full; 0 is no limit but the disk's
};

/// Opens the file after checking path and header. Errors as `store::open`, but nothing is said of the schema.
Result<std::unique_ptr<Dialect>> connect_sqlite(const std::string& path, const SqliteOptions& options);
/// An empty database in a new file.
Result<std::unique_ptr<Dialect>> connect_new_sqlite(const std::string& path, const SqliteOptions& options);
Result<std::unique_ptr<Dialect>> connect_sqlite_in_memory();

}  // namespace sherd::store
