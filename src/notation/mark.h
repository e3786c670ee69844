#pragma once

#include <string_view>

#include "base/result.h"
#include "model/mark_tables.h"
#include "notation/mark_reading.h"

namespace sherd::notation {

/// Explains what stands on a pot: a registration diamond (see `read_diamond`), a design number ("Rd No 821265"), words
/// of origin, trade and company, royal ciphers, stamps of capacity; several in one text narrow each other. What is read
/// stands in docs/methods/marks.md. Errors: `unreadable_mark` with a caret where no mark is known in the text,
/// `impossible_mark` for a diamond without a day.
Result<MarkReading> read_mark(std::string_view text, const DiamondTables& diamonds, const MarkTables& marks);

}  // namespace sherd::notation
