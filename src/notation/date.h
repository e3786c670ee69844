#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "model/words.h"
#include "model/year.h"
#include "notation/date_style.h"

namespace sherd::notation {

/// A written date in years.
struct DateReading {
  YearRange range;  ///< empty: the text says that there is no date
  Certainty certainty = Certainty::sure;
  bool circa = false;
  std::string style;                 ///< the name of the style it was read by
  std::vector<std::string> because;  ///< what each part of the text was taken for
  std::vector<std::string> warnings;
};

/// Reads a date as specialists write it: years, ranges, centuries and their parts, BC and AD, circa, open ends, doubt.
/// The notations are listed in docs/methods/date-notation.md. Error `unreadable_date`: the message's first line shows
/// the text, its second a caret under the place.
Result<DateReading> read_date(std::string_view text, const DateStyle& style = default_date_style());

}  // namespace sherd::notation
