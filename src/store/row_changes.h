#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "store/dialect.h"
#include "store/store.h"
#include "store/versioned.h"

namespace sherd {

/// What one change did to one table of one site. All tables have the column uid and those of `table`.
struct TableChanges {
  std::string site, table;
  Table was;                        ///< versions that it ended
  Table now;                        ///< versions that it began; its column to_change is null where they are current
  Table former;                     ///< of rows that it brought back: how they were when they went
  Table latest;                     ///< of rows that it added and that were altered since: how they are today
  std::vector<Document> documents;  ///< of `now`, in its order, where the table is that of documents
};

}  // namespace sherd

namespace sherd::store {

/// Of all versioned tables, in their order; those that the change did not touch are left out. Throws what the database
/// throws. Error `damaged_store` where a document's bytes are not there.
Result<std::vector<TableChanges>> load_table_changes(Dialect& dialect, std::int64_t seq);

/// uid, then `more` (whole numbers), then the columns of `table`; filled by `where`, which may go on with an order.
Table fetch_rows(Dialect& dialect, const Versioned& table, const std::vector<std::string>& more,
                 const std::string& where, std::span<const std::string> texts = {});

/// The row of each uid of a table. Views into it.
std::unordered_map<std::string_view, std::size_t> rows_by_uid(const Table& rows);
void push_cell(Column& to, const Column& from, std::size_t row);
/// One row of `table` with its uid, cells as in `from`; blank where it has no such column.
Table single_row(const Versioned& table, const Table& from, std::size_t row);

}  // namespace sherd::store
