#include "access/common_passwords.h"

#include <algorithm>
#include <string>
#include <vector>

#include "base/text.h"
#include "sherd_access_data.h"

namespace sherd::access {

namespace {

constexpr std::size_t kLeastCore = 4;  ///< characters of what is left without figures and signs

const std::vector<std::string_view>& commonest() {
  static const std::vector<std::string_view> kSorted = [] {
    std::vector<std::string_view> words = split(common_passwords_txt, '\n');
    std::ranges::sort(words);
    return words;
  }();
  return kSorted;
}

bool is_listed(std::string_view word) { return !word.empty() && std::ranges::binary_search(commonest(), word); }

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (static_cast<unsigned char>(c) & 0x80U) != 0; }

/// Without what is no letter at both ends: "password" of "1password2026!".
std::string_view core_of(std::string_view low) {
  const auto first = std::ranges::find_if(low, is_letter);
  std::size_t from = static_cast<std::size_t>(first - low.begin()), to = low.size();
  while (to > from && !is_letter(low[to - 1])) --to;
  return low.substr(from, to - from);
}

/// The shortest part that makes the whole by being said again: "pass" of "passpasspass".
std::string_view part_of(std::string_view text) {
  for (std::size_t length = 1; 2 * length <= text.size(); ++length) {
    if (text.size() % length == 0 && text.substr(length) == text.substr(0, text.size() - length))
      return text.substr(0, length);
  }
  return text;
}

}  // namespace

bool is_common(std::string_view password) {
  const std::string low = lower(password);
  const std::string_view core = core_of(low);
  if (is_listed(low) || is_listed(part_of(low))) return true;
  return core.size() >= kLeastCore && (is_listed(core) || is_listed(part_of(core)));
}

}  // namespace sherd::access
