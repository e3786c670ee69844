#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"

namespace sherd {

/// Reads a decimal number exactly as an integer of 10^-`decimals`: ("14.5", 3) -> 14500. Half away from zero where
/// the text has more places than that. Accepts a sign, digits, one point, an exponent as spreadsheets write it
/// ("1.2E+3"). Errors: `not_a_number`, `number_too_large`.
Result<std::int64_t> parse_scaled(std::string_view text, int decimals);
/// The way back, without trailing zeros: (14500, 3) -> "14.5".
std::string format_scaled(std::int64_t value, int decimals);

/// Shortest text that reads back as the same double; "" for not-a-number.
std::string format_double(double value);
/// Rounded to `places` decimals, "-0.0" never.
std::string format_fixed(double value, int places);

}  // namespace sherd
