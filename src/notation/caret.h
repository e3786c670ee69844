#pragma once

#include <cstddef>
#include <string_view>

#include "base/result.h"

namespace sherd::notation {

/// A text that cannot be read: the message's first line is `start` and the text, its second a caret under byte `at` of
/// the text and the reason.
std::unexpected<Error> unreadable(std::string_view code, std::string_view start, std::string_view text, std::size_t at,
                                  std::string_view why, std::string_view hint);

}  // namespace sherd::notation
