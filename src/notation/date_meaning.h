#pragma once

#include <expected>
#include <string_view>

#include "notation/date.h"
#include "notation/date_parser.h"

namespace sherd::notation {

/// What a date is read by.
struct DateContext {
  const DateStyle& style;
  bool slash_is_either = false;
  bool small_letters_uncalibrated = false;
  const PeriodIndex* periods = nullptr;
};

/// What a written date means in years.
std::expected<DateReading, DateTrouble> date_meaning(WrittenDate date, const DateContext& context);

/// A radiocarbon age has no calendar years: the reading of one, with the warning that says so.
DateReading age_reading(DateKind kind, const RadiocarbonAge& age, const DateStyle& style);

}  // namespace sherd::notation
