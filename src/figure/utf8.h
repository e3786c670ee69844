#pragma once

#include <cstdint>
#include <string_view>

namespace sherd::figure {

/// One character of UTF-8 text and how many bytes it takes, at least 1; a byte that belongs to no well-formed sequence
/// is U+FFFD (RFC 3629).
struct Character {
  char32_t code = 0;
  std::size_t bytes = 1;
};
Character character_at(std::string_view text, std::size_t at);

}  // namespace sherd::figure
