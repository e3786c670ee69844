#include "notation/date_bound.h"
#include "notation/date_words.h"

namespace sherd::notation {

namespace {

using Core = WrittenBound::Core;
using Part = WrittenPart::Kind;

}  // namespace

void BoundReader::century_word(WrittenBound& bound) {
  if (bound.ordinal && (token().is("millennium") || token().is("millennia"))) {
    bound.core = Core::millennium;
    next();
    return;
  }
  if (!token().is("c") && !token().is("cent") && !token().is("century") && !token().is("centuries")) return;
  // In "13th c.1350" the c is not the century's: no number may follow it.
  if (token().is("c") && is_number(token(token(1).is('.') ? 2 : 1))) return;
  bound.core = Core::century;
  bound.named = true;
  next();
  point();
}

BoundReader::Done BoundReader::number(WrittenBound& bound) {
  if (token().digits > kMostYearDigits) return trouble("a year has at most seven digits");
  bound.core = Core::year;
  bound.number = token().number;
  bound.digits = token().digits;
  const std::size_t apostrophe = token(1).is('\'') && !token(1).spaced ? 1 : 0;
  if (token(1 + apostrophe).is("s") && !token(1 + apostrophe).spaced) return decade(bound);
  next();
  if (is_ordinal_ending(token())) {
    bound.core = Core::century;
    bound.ordinal = true;
    next();
    if (token().is('-') && token(1).is("century")) next();  // mid-16th-century
  }
  century_word(bound);
  return {};
}

/// 1530s; the number is at the token. 1500s could be the decade or the century.
BoundReader::Done BoundReader::decade(WrittenBound& bound) {
  if (bound.number % 10 != 0) return trouble("a decade begins in a year that ends in 0");
  if (bound.number % 100 == 0) {
    const std::string year = std::to_string(bound.number);
    return trouble("this may be ten years or a hundred: write C" + std::to_string(bound.number / 100 + 1) + ", or " +
                   year + "-" + std::to_string(bound.number + 9));
  }
  if (bound.part) return trouble("a decade has no parts by any style: write the years");
  bound.core = Core::decade;
  next();
  if (token().is('\'')) next();
  next();
  return {};
}

/// C13, C2.3; C is at the token.
BoundReader::Done BoundReader::after_c(WrittenBound& bound) {
  next();
  SHERD_CHECK(number(bound));
  bound.core = Core::century;
  bound.named = true;
  const bool quarter =
      token().is('.') && !token().spaced && is_number(token(1)) && !token(1).spaced && token(1).digits == 1;
  if (quarter && !bound.part && token(1).number >= 1 && token(1).number <= 4) {
    const int which = static_cast<int>(token(1).number);
    bound.part = WrittenPart{Part::quarter, which, which};
    next();
    next();
  }
  return {};
}

BoundReader::Done BoundReader::core(WrittenBound& bound) {
  const std::size_t start = at_;
  bool bare = false;  // L13
  if (token().is("c") && is_number(token(1))) {
    SHERD_CHECK(after_c(bound));
  } else if (const int ordinal = ordinal_word(token()); ordinal > 0) {
    bound.core = Core::century;
    bound.ordinal = true;
    bound.number = ordinal;
    next();
    century_word(bound);
  } else if (is_number(token())) {
    SHERD_CHECK(number(bound));
    bare = bound.part && bound.core == Core::year;
    if (bare) bound.core = Core::century;
  } else {
    if (bound.part && at_separator()) return {};  // "early to mid 13th": the century follows
    return trouble(wanted());
  }
  return check_century(bound, bare, start);
}

BoundReader::Done BoundReader::check_century(const WrittenBound& bound, bool bare, std::size_t start) {
  const bool thousand = bound.core == Core::millennium;
  if (thousand && bound.part && (bound.part->kind == Part::thirds || bound.part->kind == Part::third)) {
    return trouble("a millennium has halves and quarters, and no other parts by any style");
  }
  const std::int64_t last = bare ? kLastBareCentury : kMostCenturies;
  if ((thousand || bound.core == Core::century) && (bound.number < 1 || bound.number > last)) {
    at_ = start;
    return trouble(bare ? "only a century has parts, and this is none"
                        : (thousand ? "millennia run from 1 to 99" : "centuries run from 1 to 99"));
  }
  return {};
}

}  // namespace sherd::notation
