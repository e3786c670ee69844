#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace sherd::notation {

/// A word, a number or a sign of what stands on a pot.
struct MarkToken {
  std::string text;       ///< letters in lower case, without points; digits without thousands' commas; "&"; "1/2"
  bool number = false;    ///< digits only
  bool attached = false;  ///< no space stands before it
  std::size_t at = 0;     ///< bytes of the text: from
  std::size_t end = 0;    ///< up to
};

/// "V.R. 49, Rd.No.821,265" gives vr, 49, rd, no, 821265. Points join single letters ("V.R.", not "V R") and else part
/// words; so does every other sign, but & stands as a word.
std::vector<MarkToken> mark_tokens(std::string_view text);

}  // namespace sherd::notation
