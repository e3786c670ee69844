#pragma once

#include <string>
#include <vector>

#include "store/dialect.h"

namespace sherd::store {

/// What the database can tell of its own state: pages whose checksum was wrong, indexes and constraints that do not
/// hold, an index that does not find each row of its table, rows that name a change or site that is not there. One
/// sentence each. Throws what the database throws.
std::vector<std::string> postgres_problems(Dialect& dialect);

}  // namespace sherd::store
