#include "notation/date_bound.h"

#include <algorithm>
#include <array>

#include "notation/date_words.h"

namespace sherd::notation {

namespace {

using Part = WrittenPart::Kind;

constexpr std::array<std::string_view, 5> kProbable{"prob", "probably", "probable", "likely", "apparently"};
constexpr std::array<std::string_view, 5> kPossible{"poss", "possibly", "possible", "perhaps", "maybe"};
constexpr std::array<std::string_view, 6> kCirca{"ca", "circa", "about", "approx", "approximately", "around"};

template <std::size_t N>
bool is_any(const DateToken& token, const std::array<std::string_view, N>& words) {
  return token.kind == DateToken::Kind::word && std::ranges::find(words, token.word) != words.end();
}

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
  const bool small = is_number(what) && what.number <= kLastBareCentury && what.digits <= 2;
  const bool joined = ahead == 1 && !what.spaced;
  const bool ordinal = is_number(what) && is_ordinal_ending(token(ahead + 1));
  if (small && (joined || (ahead == 1 && token().capital))) return false;
  const DateToken& after = token(ahead + 1);
  const bool two_digits = is_number(what) && what.digits == 2 && !small;
  if (two_digits && joined && !ordinal && (after.is("bc") || after.is("bce"))) {
    return trouble("this may be a century or circa and a year: write 22nd century BC, or circa 22 BC");
  }
  if (two_digits && joined && ordinal) return false;  // C22nd
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
  bound.small_ad = token().is("ad") && !token().capital;
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
    if (token().is("fl") || token().is("floruit") || token().is("flourished")) {
      bound.flourished = true;
      next();
      point();
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
  const NamedPart* found = named_part_of(token());
  if (found == nullptr) return false;
  const std::size_t back = at_;
  next();
  if (!found->century) point();
  // early-mid 13th, E-M 13, E/M13: the first part ends where the next begins; mid-13th: the dash only joins.
  const bool parts_follow = at_separator() && (named_part_of(token(1)) != nullptr || at_period(1));
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

std::expected<WrittenBound, DateTrouble> BoundReader::bound() {
  WrittenBound out;
  out.at = token().at;
  SHERD_CHECK(before_core(out));
  if (token().is('-') && is_number(token(1)) && !token(1).spaced && !out.era) {
    out.era = Era::bc;  // -120
    next();
  }
  SHERD_TRY(const bool name, period(out));
  if (!name) {
    part(out);
    SHERD_CHECK(core(out));
    doubt();
    if (!out.era) era(out, false);
  }
  doubt();
  if (token().is('.') && token(1).kind == DateToken::Kind::end) next();
  return out;
}

}  // namespace sherd::notation
