#pragma once

#include <string>
#include <string_view>

namespace sherd {

/// RFC 4648 base64 with padding, on one line.
std::string base64(std::string_view bytes);

}  // namespace sherd
