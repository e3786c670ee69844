#pragma once

#include <string>

#include "model/words.h"
#include "model/year.h"
#include "notation/date_style.h"

namespace sherd::notation {

/// The range in the words of a style: "AD 120-250", "C2", "late C3", "late C13-early C14", "1st half C1 BC", "1530s",
/// "AD 270 or later", "undated". By the same style `read_date` gives the same range again. What the words of the style
/// cannot say (an open end where the style's are limited, years of more than seven digits) is written in EDTF.
/// Probable adds "?", possible "poss.".
std::string date_text(const YearRange& range, const DateStyle& style = default_date_style(),
                      Certainty certainty = Certainty::sure);

}  // namespace sherd::notation
