#pragma once

#include <memory>
#include <span>
#include <string>
#include <string_view>

#include "store/sqlite_dialect.h"
#include "store/store.h"

/// Stores in files. The steps of migration are an argument so that the way forward can be tested.
namespace sherd::store {

Result<std::unique_ptr<Store>> create_sqlite(const std::string& path, const SqliteOptions& options,
                                             std::span<const std::string_view> steps);
Result<std::unique_ptr<Store>> open_sqlite(const std::string& path, const SqliteOptions& options,
                                           std::span<const std::string_view> steps);
Result<void> restore_sqlite(const std::string& file, const std::string& path);
Result<std::unique_ptr<Store>> sqlite_in_memory();

}  // namespace sherd::store
