#pragma once

#include <span>
#include <string>
#include <string_view>

#include "notation/date.h"

namespace sherd::notation {

/// Extended Date/Time Format, Library of Congress, 4 February 2019 (ISO 8601-2:2019), levels 0 to 2, kept to the year.
/// Its years are astronomical: 0000 is 1 BC.

/// True where the text has a mark that none but EDTF has: 20XX, 1950S2, 1985/.., 1984%, 2004-06-11.
bool looks_like_edtf(std::string_view text);

/// Levels 0 to 2; with `centuries` also a century YY and a decade YYY of ISO 8601-1, standing alone. Error
/// `unreadable_date` with a caret.
Result<DateReading> read_edtf(std::string_view text, bool centuries = true);

/// A range: "0120/0250", "-0119/..", "Y-170000002"; "XXXX" where it is empty. Doubt is ?, circa ~, both %; probable and
/// possible are one.
std::string edtf_text(const YearRange& range, Certainty certainty = Certainty::sure, bool circa = false);

/// One of several ranges: "[0120,0140]".
std::string edtf_one_of(std::span<const YearRange> ranges, Certainty certainty = Certainty::sure, bool circa = false);

}  // namespace sherd::notation
