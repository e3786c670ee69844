#pragma once

#include <expected>
#include <string>
#include <vector>

#include "notation/date_parser.h"

namespace sherd::notation {

/// Each end of a range may leave to the other what it does not say itself: the century (C2-3), the era (50-20 BC), the
/// first digits (1120-35). Fills that in, and says so in `because` or `warnings` where it is not plain.
std::expected<void, DateTrouble> complete_range(WrittenDate& date, std::vector<std::string>& because,
                                                std::vector<std::string>& warnings);

}  // namespace sherd::notation
