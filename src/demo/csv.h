#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "model/table.h"

/// The little of CSV that the demo's own tables need (RFC 4180 quoting, comma, UTF-8).
namespace sherd::demo {

using Rows = std::vector<std::vector<std::string>>;

/// All rows, the header among them; a row with another number of cells than the header is an error (`bad_table`).
Result<Rows> parse_csv(std::string_view text);
std::string csv_text(const Rows& rows);

/// A table of canonical columns with that header. Errors: `bad_table` for an unknown column or an unreadable cell.
Result<Table> table_of(Kind kind, const Rows& rows);
/// Header and rows, cells as the outside sees them. Columns that are blank in every row are left out.
Rows rows_of(const Table& table);

}  // namespace sherd::demo
