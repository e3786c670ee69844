#include "store/open.h"

#include <fmt/format.h>

#include "store/migrations.h"
#include "store/open_sqlite.h"

namespace sherd::store {

namespace {

Result<void> check_address(const std::string& address) {
  if (!address.starts_with("postgresql://") && !address.starts_with("postgres://")) return {};
  return fail("unknown_address", "a store on a PostgreSQL server cannot be opened by this version",
              "Give the path of a file");
}

}  // namespace

Result<std::unique_ptr<Store>> create(const std::string& address) {
  SHERD_CHECK(check_address(address));
  return create_sqlite(address, {}, migrations());
}

Result<std::unique_ptr<Store>> open(const std::string& address) {
  SHERD_CHECK(check_address(address));
  return open_sqlite(address, {}, migrations());
}

Result<void> restore(const std::string& file, const std::string& address) {
  SHERD_CHECK(check_address(file));
  SHERD_CHECK(check_address(address));
  return restore_sqlite(file, address);
}

Result<std::unique_ptr<Store>> in_memory() { return sqlite_in_memory(); }

}  // namespace sherd::store
