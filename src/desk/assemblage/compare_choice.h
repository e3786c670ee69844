#pragma once

#include <algorithm>
#include <array>
#include <string>

#include "base/result.h"
#include "base/text.h"

namespace sherd::desk {

/// The place of an option's word among those that it may have. Error `bad_choice`.
template <std::size_t N>
Result<std::size_t> chosen(const char* option, const std::string& word, const std::array<std::string, N>& known,
                           std::size_t unless_said) {
  if (word.empty()) return unless_said;
  const auto at = std::ranges::find(known, word);
  if (at != known.end()) return static_cast<std::size_t>(at - known.begin());
  const std::string near = did_you_mean(word, known);
  return fail(ErrorKind::usage, "bad_choice", "--" + std::string(option) + " does not know \"" + word + "\"",
              near.empty() ? "choose " + join(known, ", ") : near);
}

}  // namespace sherd::desk
