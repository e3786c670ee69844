#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/result.h"
#include "desk/frame/session.h"
#include "desk/recording/apply_edits.h"
#include "model/table.h"

namespace sherd::desk {

/// The columns of a kind, with "uid" and "changed" behind them.
std::vector<std::string> state_columns(Kind kind);
/// Row `row` of a table that has these columns.
RowState row_state(const Table& table, std::size_t row);
/// The project sheet as a row of kind "sheet".
RowState sheet_state(const Site& site);

}  // namespace sherd::desk
