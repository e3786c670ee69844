#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "base/result.h"

namespace sherd::notation {

/// Where a date cannot be read, and why.
struct DateTrouble {
  std::size_t at = 0;  ///< byte in the text
  std::string why;
};

/// Error `unreadable_date`: the text on the first line of the message, a caret under the place on the second.
std::unexpected<Error> unreadable_date(std::string_view text, const DateTrouble& trouble);

}  // namespace sherd::notation
