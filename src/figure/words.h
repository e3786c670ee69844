#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "model/year.h"

namespace sherd::figure {

/// 12345.678, 1 -> "12,345.7"; a true minus sign; from a million million on "1.23e+15"; "" where it is not finite.
std::string number_text(double value, int decimals);
/// ("34", "%") -> "34 %"; without a unit the number alone.
std::string with_unit(std::string_view number, std::string_view unit);
/// ("Weight", "g") -> "Weight (g)".
std::string axis_title(std::string_view measure, std::string_view unit);
/// (245, "sherds") -> "n 245 sherds"; "" without n.
std::string n_text(std::optional<std::int64_t> n, std::string_view n_word);
/// "Year AD", "Year BC", "Year BC and AD"
std::string year_axis_title(Year first, Year last);

}  // namespace sherd::figure
