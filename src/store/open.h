#pragma once

#include <functional>
#include <memory>
#include <string>

#include "store/store.h"

/// The concrete stores, by address: the path of a file, or postgresql://user@host:port/database. Only main includes
/// this.
namespace sherd::store {

/// Makes an empty store; on a server, in a database that is there and holds none. Errors: `store_exists` where the file
/// or a store is there already, `orphan_log` where the log of a store of that name lies there, `no_folder`,
/// `network_folder`; on a server `unknown_address`, `cannot_open`, `no_store` where there is no such database.
Result<std::unique_ptr<Store>> create(const std::string& address);
/// Opens an existing one and migrates it forward, behind a backup beside it (`FILE.before-N`; on a server a schema
/// `sherdwright_before_N`). Errors: `no_store`, `not_a_store`, `damaged_store`, `newer_store`, `network_folder`,
/// `store_busy`; on a server also `unknown_address` and `cannot_open`. Store::warnings then says what was found odd.
Result<std::unique_ptr<Store>> open(const std::string& address);
/// A backup file becomes the store at `address`, which must not exist; verified before it is put in place. Errors:
/// those of `create`, and of `open` for the file.
Result<void> restore(const std::string& file, const std::string& address);
/// Opens stores as `open` does, and keeps connections to servers from one use to the next; by several threads at a
/// time.
std::function<Result<std::unique_ptr<Store>>(const std::string& address)> opener();
/// Errors: those of `open`.
Result<std::unique_ptr<ChangeFeed>> open_feed(const std::string& address);
/// A store that lives in memory, for tests.
Result<std::unique_ptr<Store>> in_memory();

}  // namespace sherd::store
