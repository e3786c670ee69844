#pragma once

#include <string>

#include "model/site.h"
#include "model/table.h"

namespace sherd::desk {

/// The project sheet as a table of one row, with the columns of site_columns().
Table sheet_table(const Site& site);
/// And back.
Site sheet_of(const Table& table);

}  // namespace sherd::desk
