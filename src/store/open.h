#pragma once

#include <memory>
#include <string>

#include "store/store.h"

/// The concrete stores, by address. Only main includes this.
namespace sherd::store {

/// Makes an empty store. Errors: `store_exists` where the file is there already, `orphan_log` where the log of a store
/// of that name lies there, `no_folder`, `network_folder`.
Result<std::unique_ptr<Store>> create(const std::string& address);
/// Opens an existing one and migrates it forward, behind a backup beside it (`FILE.before-N`). Errors: `no_store`,
/// `not_a_store`, `damaged_store`, `newer_store`, `network_folder`, `store_busy`. Store::warnings then says what was
/// found odd.
Result<std::unique_ptr<Store>> open(const std::string& address);
/// A backup file becomes the store at `address`, which must not exist; verified before it is put in place. Errors:
/// those of `create`, and of `open` for the file.
Result<void> restore(const std::string& file, const std::string& address);
/// A store that lives in memory, for tests.
Result<std::unique_ptr<Store>> in_memory();

}  // namespace sherd::store
