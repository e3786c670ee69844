#pragma once

#include <memory>

#include "store/dialect.h"
#include "store/postgres_address.h"

namespace sherd::store {

/// Connects to the database, whatever is in it. Errors: `cannot_open`, `no_store` where there is no such database,
/// `store_busy` where no connection is free.
Result<std::unique_ptr<Dialect>> connect_postgres(const PostgresAddress& address);

/// The channel on which the sequence number of each change is told.
constexpr const char* kChannel = "sherdwright";

}  // namespace sherd::store
