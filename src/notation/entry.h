#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "model/column.h"
#include "model/words.h"

/// What hands type into the cells of a line.
namespace sherd::notation {

/// A typed amount. `value`: in the units that the record keeps (mg, 1/100 mm, 1/10 %, ml, or a count).
struct Entry {
  std::int64_t value = 0;
  std::string taken_for;  ///< "12+7+30 = 49", "1.2 kg = 1200 g"; "" where it stands as it was typed
};

/// "49", "12+7+30", "12,5", "1.2 kg", "3 cm", "1,2+0,8 kg", "1,234.5": a sum of numbers with a point or a comma before
/// the decimals, each with or without a unit of the column's kind; a unit behind the last holds for those before it
/// that have none. `type`: count, weight, length, percent or volume. Errors: `unreadable_amount` with a caret,
/// `ambiguous_number` ("1,450"), `wrong_unit`, `not_whole`, `negative`, `number_too_large`.
Result<Entry> read_entry(std::string_view text, CellType type);

/// The unit in which a column is written: "g", "mm", "%", "l"; "" for what has none.
std::string_view unit_of(CellType type);

/// A code and how sure whoever typed it was: "grey-1?" is probably grey-1, "grey-1??" possibly; "(?)" counts as "?".
struct DoubtfulCode {
  std::string_view code;
  std::optional<Certainty> certainty;  ///< nothing where no question mark stands behind the code
};
DoubtfulCode read_doubt(std::string_view text);

}  // namespace sherd::notation
