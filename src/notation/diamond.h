#pragma once

#include <string_view>

#include "base/result.h"
#include "model/mark_tables.h"
#include "notation/mark_reading.h"

namespace sherd::notation {

/// True where the text sets out to describe a registration diamond: "diamond", then something.
bool is_diamond_text(std::string_view text);

/// Reads a registration diamond from what stands in its corners, "diamond top=X left=B right=12 bottom=4 class=IV":
/// corners in any order, any of them left out or "?", and characters without a corner ("diamond X B 12 4") where it is
/// not known which was where. The short text is described in docs/methods/marks.md. Both series are tried; the answers
/// that can not be are kept with the reason as long as one can. Errors, with a caret: `unreadable_mark` for a text that
/// is none of this, `impossible_mark` where no series has such a day.
Result<MarkReading> read_diamond(std::string_view text, const DiamondTables& tables);

}  // namespace sherd::notation
