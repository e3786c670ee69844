#pragma once

#include <functional>
#include <memory>

#include "store/raw.h"
#include "store/sqlite_api.h"

namespace sherd::store {

/// The tables of a store in the order in which they were made: what is referred to comes first.
std::vector<RawTable> raw_tables(Handle handle);
void scan_sqlite(Handle handle, const RawTable& table, const std::function<void(RawRow)>& row);
std::unique_ptr<RawWriter> sqlite_writer(Handle handle, const RawTable& table);

}  // namespace sherd::store
