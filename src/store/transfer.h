#pragma once

#include <string>

#include "base/result.h"
#include "store/dialect.h"
#include "store/sqlite_api.h"

/// Moving a store between the two kinds, row by row and without loss.
namespace sherd::store {

/// The whole store, as one reader sees it, in a new SQLite file: written beside, checked, renamed. `store_exists`.
Result<void> store_to_file(Dialect& from, const std::string& file);
/// All rows of the store in an open file, whose schema is the newest, into tables that are there and have no rows. A
/// transaction of a writer is open on `into`; the caller ends it. Throws what the databases throw.
Result<void> file_to_store(Handle file, Dialect& into);

}  // namespace sherd::store
