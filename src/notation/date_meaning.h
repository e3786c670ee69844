#pragma once

#include <expected>

#include "notation/date.h"
#include "notation/date_parser.h"

namespace sherd::notation {

/// What a written date means in years by a style.
std::expected<DateReading, DateTrouble> date_meaning(WrittenDate date, const DateStyle& style);

}  // namespace sherd::notation
