#pragma once

#include <string>

#include "base/result.h"

namespace sherd::store {

struct PostgresOptions {
  int busy_ms = 5000;  ///< how long to wait for another writer
};

/// Where a store on a server is. `connection` holds the password and is never shown.
struct PostgresAddress {
  std::string connection;  ///< as libpq reads it, with our settings of the session
  std::string shown;       ///< the address without its password
  std::string host, port, user, database;

  /// "127.0.0.1, port 5432", for sentences.
  std::string server() const;
};

/// The schema that our tables are in; the rest of the database is left alone. Do not change.
constexpr const char* kSchema = "sherdwright";

bool is_postgres(const std::string& address);
/// Errors: `unknown_address`.
Result<PostgresAddress> read_postgres_address(const std::string& address, const PostgresOptions& options);

}  // namespace sherd::store
