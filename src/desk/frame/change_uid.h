#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>

namespace sherd::desk {

inline constexpr std::string_view kNoUid = "change is not 32 hexadecimal digits in small letters";

/// Whether this can be a change's identity, which a client makes at random so that the same change is made once.
inline bool is_uid(std::string_view text) {
  constexpr std::size_t kDigits = 32;
  return text.size() == kDigits &&
         std::ranges::all_of(text, [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
}

/// Who a change is by, where a page says who records: the hand, and the account or machine that it came by.
inline std::string by_hand(const std::string& hand, const std::string& user) {
  return hand.empty() || hand == user ? user : hand + " (" + user + ")";
}

}  // namespace sherd::desk
