#pragma once

#include <cstdint>
#include <span>
#include <string_view>

#include "base/result.h"
#include "store/dialect.h"

namespace sherd::store {

/// The statements that lead from version n to n + 1, the first from nothing to version 1. They are written out and do
/// not change once released: a store of any past version is led forward by the ones that it lacks.
std::span<const std::string_view> migrations();

/// The version of the schema; 0 where there is none. Throws what the database throws.
std::int64_t schema_version(Dialect& dialect);
/// Runs those that the store lacks, in the transaction of a writer that is open. Throws what the database throws.
void run_steps(Dialect& dialect, std::span<const std::string_view> steps);
/// The same in a transaction of its own.
Result<void> migrate(Dialect& dialect, std::span<const std::string_view> steps);

}  // namespace sherd::store
