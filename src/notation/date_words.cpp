#include "notation/date_words.h"

#include <algorithm>
#include <array>

namespace sherd::notation {

namespace {

using Part = WrittenPart::Kind;

constexpr std::array<std::string_view, 20> kOrdinals{
    "first",     "second",    "third",       "fourth",     "fifth",      "sixth",      "seventh",
    "eighth",    "ninth",     "tenth",       "eleventh",   "twelfth",    "thirteenth", "fourteenth",
    "fifteenth", "sixteenth", "seventeenth", "eighteenth", "nineteenth", "twentieth"};

constexpr std::array<NamedPart, 14> kNamedParts{{{"early", 1, 1, false},
                                                 {"mid", 2, 2, false},
                                                 {"middle", 2, 2, false},
                                                 {"late", 3, 3, false},
                                                 {"e", 1, 1, false},
                                                 {"m", 2, 2, false},
                                                 {"l", 3, 3, false},
                                                 {"em", 1, 2, false},
                                                 {"ml", 2, 3, false},
                                                 {"ec", 1, 1, true},
                                                 {"mc", 2, 2, true},
                                                 {"lc", 3, 3, true},
                                                 {"emc", 1, 2, true},
                                                 {"mlc", 2, 3, true}}};

}  // namespace

bool is_number(const DateToken& token) { return token.kind == DateToken::Kind::number; }

bool is_ordinal_ending(const DateToken& token) {
  return !token.spaced && (token.is("st") || token.is("nd") || token.is("rd") || token.is("th"));
}

const NamedPart* named_part_of(const DateToken& token) {
  if (token.kind != DateToken::Kind::word) return nullptr;
  const auto* found = std::ranges::find(kNamedParts, std::string_view(token.word), &NamedPart::word);
  return found == kNamedParts.end() ? nullptr : found;
}

int ordinal_word(const DateToken& token) {
  if (token.kind != DateToken::Kind::word) return 0;
  const auto found = std::ranges::find(kOrdinals, token.word);
  return found == kOrdinals.end() ? 0 : static_cast<int>(found - kOrdinals.begin()) + 1;
}

std::optional<Part> division(const DateToken& token) {
  if (token.is("half")) return Part::half;
  if (token.is("quarter") || token.is("qtr")) return Part::quarter;
  if (token.is("third")) return Part::third;
  return std::nullopt;
}

int divisions(Part part) { return part == Part::half ? 2 : part == Part::quarter ? 4 : 3; }

}  // namespace sherd::notation
