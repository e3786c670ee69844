#pragma once

#include <string>
#include <vector>

#include "store/dialect.h"
#include "store/sqlite_api.h"

namespace sherd::store {

/// Where the tables and indexes of a store differ from those that an empty store of the version that it names has, one
/// sentence each; nothing for a version that is not known here. Throws what the library throws.
std::vector<std::string> schema_problems(Handle handle);
std::vector<std::string> schema_problems(Dialect& dialect);

}  // namespace sherd::store
