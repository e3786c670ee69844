#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "notation/date_parser.h"
#include "notation/date_tokens.h"

namespace sherd::notation {

constexpr std::int64_t kLastBareCentury = 21;  ///< a bare number up to this may be a century
constexpr std::int64_t kMostCenturies = 99;
constexpr int kMostYearDigits = 7;

/// early, mid, late, E, EM ... and the same with the C of the century: LC13.
struct NamedPart {
  std::string_view word;
  int first, last;
  bool century;
};

bool is_number(const DateToken& token);
/// st, nd, rd, th behind a number.
bool is_ordinal_ending(const DateToken& token);
/// Null where the word names no part.
const NamedPart* named_part_of(const DateToken& token);
/// 1 for "first"; 0 for none; up to twentieth.
int ordinal_word(const DateToken& token);
/// half, quarter, third
std::optional<WrittenPart::Kind> division(const DateToken& token);
/// How many of them a century has.
int divisions(WrittenPart::Kind part);

}  // namespace sherd::notation
