#include "notation/caret.h"

#include <algorithm>
#include <string>

#include "base/text.h"

namespace sherd::notation {

namespace {

constexpr std::size_t kShown = 60;  ///< characters

std::size_t characters(std::string_view text) {
  return static_cast<std::size_t>(
      std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

}  // namespace

std::unexpected<Error> unreadable(std::string_view code, std::string_view start, std::string_view text, std::size_t at,
                                  std::string_view why, std::string_view hint) {
  const bool readable = is_utf8(text);
  std::string shown = readable ? shortened(text, kShown) : "(not UTF-8 text)";
  for (char& c : shown) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = ' ';
  }
  const std::size_t place = readable ? std::min(characters(text.substr(0, at)), kShown) : 0;
  std::string message = std::string(start) + ": " + shown + "\n";
  message += std::string(start.size() + 2 + place, ' ') + "^ " + std::string(why);
  return fail(std::string(code), std::move(message), std::string(hint));
}

}  // namespace sherd::notation
