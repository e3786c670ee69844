#include "store/postgres_pool.h"

#include <map>
#include <mutex>
#include <optional>
#include <utility>
#include <vector>

#include "store/migrations.h"
#include "store/open_postgres.h"
#include "store/sql_store.h"

namespace sherd::store {

namespace {

/// Connections of one address that wait to be used again; a server has a hundred for all its clients unless it is told.
constexpr std::size_t kMostIdle = 16;

}  // namespace

class PostgresPool::Idle {
 public:
  std::optional<OpenedPostgres> take(const std::string& address) {
    const std::scoped_lock lock(mutex_);
    const auto found = of_.find(address);
    if (found == of_.end() || found->second.empty()) return std::nullopt;
    OpenedPostgres last = std::move(found->second.back());
    found->second.pop_back();
    return last;
  }

  void put(const std::string& address, OpenedPostgres opened) {
    const std::scoped_lock lock(mutex_);
    std::vector<OpenedPostgres>& there = of_[address];
    if (there.size() < kMostIdle) there.push_back(std::move(opened));
  }

 private:
  std::mutex mutex_;
  std::map<std::string, std::vector<OpenedPostgres>, std::less<>> of_;
};

PostgresPool::PostgresPool() : idle_(std::make_shared<Idle>()) {}

Result<std::unique_ptr<Store>> PostgresPool::open(const std::string& address) {
  std::optional<OpenedPostgres> opened = idle_->take(address);
  while (opened && !is_up_to_date(*opened->dialect, migrations())) opened = idle_->take(address);
  if (!opened) {
    SHERD_TRY(const PostgresAddress place, read_postgres_address(address, {}));
    SHERD_TRY(opened, connect_to_store(place, migrations()));
  }
  const auto give_back = [idle = idle_, address, warnings = opened->warnings](std::unique_ptr<Dialect> dialect) {
    if (dialect->at_rest()) idle->put(address, {std::move(dialect), warnings});
  };
  return std::make_unique<SqlStore>(std::make_shared<Connection>(std::move(opened->dialect), give_back),
                                    std::move(opened->warnings));
}

}  // namespace sherd::store
