#pragma once

#include <exception>
#include <string>

#include "base/result.h"
#include "store/sqlite_api.h"

namespace sherd::store {

/// What the database library threw, as an error for the user. The code is taken from the connection, which knows it
/// more exactly than what was thrown; `handle` may be null. `path` empty: a store in memory.
Error sqlite_error(Handle handle, const std::string& path, const std::exception& error);

}  // namespace sherd::store
