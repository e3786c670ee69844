#pragma once

#include <string>
#include <string_view>

#include "base/result.h"

namespace sherd {

/// RFC 4648 base64 with padding, on one line.
std::string base64(std::string_view bytes);
/// The way back. Error `bad_base64`: another character, a length that is no multiple of four, padding within.
Result<std::string> base64_decoded(std::string_view text);

}  // namespace sherd
