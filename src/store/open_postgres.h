#pragma once

#include <memory>
#include <span>
#include <string>
#include <string_view>

#include "store/postgres_address.h"
#include "store/store.h"

/// Stores on a PostgreSQL server, one in a database, in a schema of its own. The steps of migration are an argument so
/// that the way forward can be tested.
namespace sherd::store {

Result<std::unique_ptr<Store>> create_postgres(const std::string& address, const PostgresOptions& options,
                                               std::span<const std::string_view> steps);
Result<std::unique_ptr<Store>> open_postgres(const std::string& address, const PostgresOptions& options,
                                             std::span<const std::string_view> steps);
Result<void> restore_postgres(const std::string& file, const std::string& address);

}  // namespace sherd::store
