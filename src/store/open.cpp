#include "store/open.h"

#include "store/feed.h"
#include "store/migrations.h"
#include "store/open_postgres.h"
#include "store/open_sqlite.h"
#include "store/postgres_pool.h"

namespace sherd::store {

Result<std::unique_ptr<Store>> create(const std::string& address) {
  if (is_postgres(address)) return create_postgres(address, {}, migrations());
  return create_sqlite(address, {}, migrations());
}

Result<std::unique_ptr<Store>> open(const std::string& address) {
  if (is_postgres(address)) return open_postgres(address, {}, migrations());
  return open_sqlite(address, {}, migrations());
}

std::function<Result<std::unique_ptr<Store>>(const std::string& address)> opener() {
  return [pool = std::make_shared<PostgresPool>()](const std::string& address) {
    return is_postgres(address) ? pool->open(address) : open(address);
  };
}

Result<void> restore(const std::string& file, const std::string& address) {
  if (is_postgres(file)) {
    return fail("not_a_store", "a store on a server is no backup file",
                "Make one of it first: sherdwright backup STORE FILE");
  }
  if (is_postgres(address)) return restore_postgres(file, address);
  return restore_sqlite(file, address);
}

Result<std::unique_ptr<ChangeFeed>> open_feed(const std::string& address) {
  SHERD_TRY(const auto store, open(address));
  SHERD_TRY(const auto newest, store->newest_change());
  const std::int64_t seq = newest ? newest->seq : 0;
  if (is_postgres(address)) return postgres_feed(address, seq);
  return sqlite_feed(address, seq);
}

Result<std::unique_ptr<Store>> in_memory() { return sqlite_in_memory(); }

}  // namespace sherd::store
