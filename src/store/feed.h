#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "store/store.h"

/// Feeds of stores that were just opened: `newest` is the newest change seen then.
namespace sherd::store {

std::unique_ptr<ChangeFeed> sqlite_feed(const std::string& path, std::int64_t newest);
Result<std::unique_ptr<ChangeFeed>> postgres_feed(const std::string& address, std::int64_t newest);

}  // namespace sherd::store
