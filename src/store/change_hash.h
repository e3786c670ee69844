#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "store/dialect.h"
#include "store/raw.h"
#include "store/written_sums.h"

/// What each change wrote, as hashes in a chain: docs/design/0006-content-hash.md. Members throw what the database
/// throws.
namespace sherd::store {

/// The first version of the schema that has them.
constexpr std::int64_t kHashedSince = 4;

using Scan = std::function<void(const RawTable& table, const std::function<void(RawRow)>& row)>;

/// Of the connection, for as long as that is there.
Scan scan_of(Dialect& dialect);

/// Notes what the change wrote and ended; its transaction is open and holds all of its rows.
void seal_change(Dialect& dialect, std::int64_t seq, WrittenSums& written);
/// The same for the changes of a store that had no hashes, from the rows as they stand.
void seal_former_changes(Dialect& dialect);

/// The tables of versions, as hashed: uid, site, from_change, to_change, then the columns.
std::vector<RawTable> hashed_tables();
/// The same, of all that a file has.
std::vector<RawTable> hashed_tables(const std::vector<RawTable>& all);
/// Reads every version and every document, and compares with what was noted: one sentence for each change and table
/// that do not fit. The scan sees one state throughout.
std::vector<std::string> content_problems(const Scan& scan, const std::vector<RawTable>& tables);

}  // namespace sherd::store
