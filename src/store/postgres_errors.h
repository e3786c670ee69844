#pragma once

#include <exception>
#include <optional>

#include "base/result.h"
#include "store/postgres_address.h"

struct pg_conn;

namespace sherd::store {

/// What the database library threw, as an error for the user. `connection` may be null: there is none any more.
Error postgres_error(pg_conn* connection, const PostgresAddress& address, const std::exception& error);
/// Tries once more to connect and tells why that fails; nothing where it succeeds.
std::optional<Error> why_not_connected(const PostgresAddress& address);

}  // namespace sherd::store
