#pragma once

#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "store/dialect.h"
#include "store/postgres_address.h"
#include "store/store.h"

/// Stores on a PostgreSQL server, one in a database, in a schema of its own. The steps of migration are an argument so
/// that the way forward can be tested.
namespace sherd::store {

Result<std::unique_ptr<Store>> create_postgres(const std::string& address, const PostgresOptions& options,
                                               std::span<const std::string_view> steps);
Result<std::unique_ptr<Store>> open_postgres(const std::string& address, const PostgresOptions& options,
                                             std::span<const std::string_view> steps);
/// The connection of such a store, and what was found odd.
struct OpenedPostgres {
  std::unique_ptr<Dialect> dialect;
  std::vector<std::string> warnings;
};
Result<OpenedPostgres> connect_to_store(const PostgresAddress& place, std::span<const std::string_view> steps);
/// Whether the store that a connection was opened to is there still, and of the newest version.
bool is_up_to_date(Dialect& dialect, std::span<const std::string_view> steps);
Result<void> restore_postgres(const std::string& file, const std::string& address);

}  // namespace sherd::store
