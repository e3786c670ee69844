#include "notation/date_bound.h"

#include <algorithm>
#include <array>

namespace sherd::notation {

namespace {

using Core = WrittenBound::Core;
using Part = WrittenPart::Kind;

constexpr std::int64_t kLastCentury = 21;  ///< a bare number up to this may be a century
constexpr std::int64_t kMostCenturies = 99;
constexpr int kDigits = 7;

constexpr std::array<std::string_view, 20> kOrdinals{
    "first",     "second",    "third",       "fourth",     "fifth",      "sixth",      "seventh",
    "eighth",    "ninth",     "tenth",       "eleventh",   "twelfth",    "thirteenth", "fourteenth",
    "fifteenth", "sixteenth", "seventeenth", "eighteenth", "nineteenth", "twentieth"};

struct NamedPart {
  std::string_view word;
  int first, last;
  bool century;  ///< C is written with it: LC13
};
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

constexpr std::array<std::string_view, 5> kProbable{"prob", "probably", "probable", "likely", "apparently"};
constexpr std::array<std::string_view, 5> kPossible{"poss", "possibly", "possible", "perhaps", "maybe"};
constexpr std::array<std::string_view, 6> kCirca{"ca", "circa", "about", "approx", "approximately", "around"};

bool is_number(const DateToken& token) { return token.kind == DateToken::Kind::number; }

template <std::size_t N>
bool is_any(const DateToken& token, const std::array<std::string_view, N>& words) {
  return token.kind == DateToken::Kind::word && std::ranges::find(words, token.word) != words.end();
}

bool is_ordinal_ending(const DateToken& token) {
  return !token.spaced && (token.is("st") || token.is("nd") || token.is("rd") || token.is("th"));
}

const NamedPart* named(const DateToken& token) {
  if (token.kind != DateToken::Kind::word) return nullptr;
  const auto* found = std::ranges::find(kNamedParts, std::string_view(token.word), &NamedPart::word);
  return found == kNamedParts.end() ? nullptr : found;
}

/// 1 for "first"; 0 for none.
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

}  // namespace

std::unexpected<DateTrouble> BoundReader::trouble(std::string_view why) const {
  return std::unexpected(DateTrouble{token().at, std::string(why)});
}

bool BoundReader::at_separator(std::size_t ahead) const {
  const DateToken& one = token(ahead);
  const DateToken& after = token(ahead + 1);
  if (one.is("or")) return !after.is("later") && !after.is("earlier") && !after.is("before") && !after.is("after");
  return one.is('-') || one.is('/') || one.is("to") || one.is("x");
}

void BoundReader::point() {
  if (token().is('.')) next();
}

bool BoundReader::one_doubt() {
  const auto weaken = [&](Certainty to) { certainty_ = std::max(certainty_, to); };
  if (token().is('?')) {
    weaken(Certainty::probable);
    next();
    return true;
  }
  if (is_any(token(), kProbable) || is_any(token(), kPossible)) {
    weaken(is_any(token(), kProbable) ? Certainty::probable : Certainty::possible);
    next();
    point();
    return true;
  }
  if (!token().is('(')) return false;
  const std::size_t back = at_;
  next();
  if (one_doubt() && token().is(')')) {
    next();
    return true;
  }
  at_ = back;
  return false;
}

void BoundReader::doubt() {
  while (one_doubt()) {
  }
}

bool BoundReader::circa_word() {
  if (!token().is('~') && !is_any(token(), kCirca)) return false;
  next();
  point();
  return true;
}

/// C before a number up to 21 is a century where nothing parts them, or where it is a capital; everywhere else it is
/// circa. True where it was circa and has been taken; a century is left for `core`.
std::expected<bool, DateTrouble> BoundReader::letter_c(WrittenBound& bound) {
  if (!token().is("c")) return false;
  const std::size_t ahead = token(1).is('.') ? 2 : 1;
  const DateToken& what = token(ahead);
  const bool small = is_number(what) && what.number <= kLastCentury && what.digits <= 2;
  const bool joined = ahead == 1 && !what.spaced;
  const bool ordinal = is_number(what) && is_ordinal_ending(token(ahead + 1));
  if (small && (joined || (ahead == 1 && token().capital))) return false;
  if (small && !ordinal && !(bound.era && bound.era_before)) {
    return trouble("this may be a century or circa and a year: write C13, or circa AD 13");
  }
  next();
  point();
  bound.circa = true;
  return true;
}

bool BoundReader::era(WrittenBound& bound, bool before) {
  const bool bc = token().is("bc") || token().is("bce");
  if (!bc && !token().is("ad") && !token().is("ce")) return false;
  bound.era = bc ? Era::bc : Era::ad;
  bound.era_before = before;
  bound.small_bc = token().is("bc") && !token().capital;
  next();
  point();
  return true;
}

BoundReader::Done BoundReader::before_core(WrittenBound& bound) {
  for (;;) {
    doubt();
    if (!bound.era && era(bound, true)) continue;
    if (!bound.circa && circa_word()) {
      bound.circa = true;
      continue;
    }
    if (!bound.circa) {
      SHERD_TRY(const bool taken, letter_c(bound));
      if (taken) continue;
    }
    if (!token().is("the")) return {};
    next();
  }
}

bool BoundReader::named_part(WrittenBound& bound) {
  const NamedPart* found = named(token());
  if (found == nullptr) return false;
  const std::size_t back = at_;
  next();
  if (!found->century) point();
  // early-mid 13th, E-M 13, E/M13: the first part ends where the next begins; mid-13th: the dash only joins.
  const bool parts_follow = at_separator() && named(token(1)) != nullptr;
  if (token().is('-') && !parts_follow) next();
  const bool single = found->word.size() <= 3 && found->word != "mid";
  if (single && !parts_follow && !is_number(token()) && !token().is("c")) {
    at_ = back;
    return false;
  }
  bound.part = WrittenPart{Part::thirds, found->first, found->last};
  bound.named = found->century;
  return true;
}

/// 1st half, second quarter, last third; Q3, H1.
bool BoundReader::ordinal_part(WrittenBound& bound) {
  int which = 0;
  std::size_t words = 1;
  std::optional<Part> kind;
  if ((token().is("q") || token().is("h")) && is_number(token(1)) && !token(1).spaced && token(1).digits == 1) {
    which = static_cast<int>(token(1).number);
    kind = token().is("q") ? Part::quarter : Part::half;
    words = 2;
  } else {
    if (is_number(token()) && token().digits == 1 && is_ordinal_ending(token(1))) {
      which = static_cast<int>(token().number);
      words = 2;
    } else {
      which = ordinal_word(token());
    }
    kind = division(token(words));
    if (kind && token().is("last")) which = divisions(*kind);
    ++words;
  }
  if (!kind || which < 1 || which > divisions(*kind)) return false;
  for (std::size_t i = 0; i < words; ++i) next();
  bound.part = WrittenPart{*kind, which, which};
  return true;
}

bool BoundReader::part(WrittenBound& bound) {
  if (!ordinal_part(bound) && !named_part(bound)) return false;
  while (token().is("of") || token().is("the") || token().is("in")) next();
  return true;
}

void BoundReader::century_word(WrittenBound& bound) {
  if (!token().is("c") && !token().is("cent") && !token().is("century") && !token().is("centuries")) return;
  // In "13th c.1350" the c is not the century's: no number may follow it.
  if (token().is("c") && is_number(token(token(1).is('.') ? 2 : 1))) return;
  bound.core = Core::century;
  bound.named = true;
  next();
  point();
}

BoundReader::Done BoundReader::number(WrittenBound& bound) {
  if (token().digits > kDigits) return trouble("a year has at most seven digits");
  bound.core = Core::year;
  bound.number = token().number;
  bound.digits = token().digits;
  next();
  if (is_ordinal_ending(token())) {
    bound.core = Core::century;
    bound.ordinal = true;
    next();
  }
  century_word(bound);
  return {};
}

BoundReader::Done BoundReader::core(WrittenBound& bound) {
  const std::size_t start = at_;
  bool bare = false;  // L13
  if (token().is("c") && is_number(token(1))) {
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
    return trouble("a year or a century is wanted here");
  }
  const std::int64_t last = bare ? kLastCentury : kMostCenturies;
  if (bound.core == Core::century && (bound.number < 1 || bound.number > last)) {
    at_ = start;
    return trouble(bare ? "only a century has parts, and this is none" : "centuries run from 1 to 99");
  }
  return {};
}

std::expected<WrittenBound, DateTrouble> BoundReader::bound() {
  WrittenBound out;
  out.at = token().at;
  SHERD_CHECK(before_core(out));
  if (token().is('-') && is_number(token(1)) && !token(1).spaced && !out.era) {
    out.era = Era::bc;  // -120
    next();
  }
  part(out);
  SHERD_CHECK(core(out));
  doubt();
  if (!out.era) era(out, false);
  if (token().is("bp") || token().is("cal")) return trouble("radiocarbon ages and calibrated dates are not read here");
  doubt();
  if (token().is('.') && token(1).kind == DateToken::Kind::end) next();
  return out;
}

}  // namespace sherd::notation
