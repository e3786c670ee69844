#pragma once

#include "base/csv.h"
#include "base/result.h"
#include "model/munsell_table.h"

namespace sherd::notation {

/// The rows of munsell_renotation.csv, header first. Error `bad_table`, naming row and column: a hue or value out of
/// order, an odd number of coordinates, a coordinate outside 0 to 1, or not 360 rows.
Result<MunsellTable> munsell_table(const CsvRows& rows);

}  // namespace sherd::notation
