#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace sherd::notation {

constexpr char kPlusMinus = 2;  ///< the symbol of a plus-minus sign, also where written +- or +/-

/// A piece of a written date.
struct DateToken {
  enum class Kind { number, word, symbol, end };

  Kind kind = Kind::end;
  std::string word;         ///< letters in lower case; "ad", "bc", "bp", "nd" also where written with points
  bool capital = false;     ///< a word that begins with a capital
  std::int64_t number = 0;  ///< digits beyond seven are not counted; 10,000 is one number
  int digits = 0;
  char symbol = 0;      ///< '-' for every dash, kPlusMinus; 1 for anything unexpected
  bool spaced = false;  ///< white space stands before it
  std::size_t at = 0;   ///< byte in the text
  std::size_t end = 0;  ///< the byte behind it

  bool is(std::string_view text) const { return kind == Kind::word && word == text; }
  bool is(char c) const { return kind == Kind::symbol && symbol == c; }
};

/// The pieces of `text`; the last is of kind `end`.
std::vector<DateToken> date_tokens(std::string_view text);

}  // namespace sherd::notation
