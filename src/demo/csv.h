#pragma once

#include "base/csv.h"
#include "base/result.h"
#include "model/table.h"

namespace sherd::demo {

using Rows = CsvRows;

/// A table of canonical columns with that header. Errors: `bad_table` for an unknown column or an unreadable cell.
Result<Table> table_of(Kind kind, const Rows& rows);
/// Header and rows, cells as the outside sees them. Columns that are blank in every row are left out.
Rows rows_of(const Table& table);

}  // namespace sherd::demo
