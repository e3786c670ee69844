#pragma once

#include <string>
#include <vector>

#include "desk/assemblage/line_fields.h"
#include "desk/assemblage/tally_sherds.h"
#include "desk/dates/plain_table.h"

namespace sherd::desk {

struct TableLines {
  LineFields fields;
  std::vector<std::string> warnings;
};
/// The lines of a plain table as a tally reads them: the measures by the headings that an import knows, and the columns
/// `asked` for as they are spelt. Errors: `unknown_field`, `no_measure`, `not_a_number`, `negative_count`.
Result<TableLines> lines_of_table(const PlainTable& table, const std::vector<std::string>& asked);

}  // namespace sherd::desk
