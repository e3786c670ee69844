#pragma once

#include <cstdint>
#include <expected>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "model/words.h"
#include "notation/date_tokens.h"
#include "notation/date_trouble.h"
#include "notation/period.h"

namespace sherd::notation {

enum class Era { ad, bc };

/// Which part of a century, as written.
struct WrittenPart {
  enum class Kind { thirds, half, quarter, third };  ///< `thirds`: early, mid, late
  Kind kind = Kind::thirds;
  int first = 1;  ///< early 1, mid 2, late 3; or which half, quarter, third
  int last = 1;
};

/// One end of a range, or the whole of a date that is none.
struct WrittenBound {
  enum class Core { none, year, decade, century, millennium, period };

  Core core = Core::none;
  std::int64_t number = 0;  ///< year, the decade's year that ends in 0, century or millennium
  int digits = 0;
  bool ordinal = false;  ///< 13th, thirteenth
  bool named = false;    ///< with the word century, or with C
  bool circa = false;
  std::optional<WrittenPart> part;
  std::optional<Era> era;
  bool era_before = false;  ///< AD 50 rather than 50 AD
  bool small_bc = false;    ///< bc in small letters
  bool small_ad = false;    ///< ad in small letters
  bool flourished = false;  ///< fl.
  const PeriodRow* period = nullptr;
  bool elsewhere = false;  ///< a period that the chosen authority does not have
  std::size_t at = 0;      ///< byte in the text
};

/// What is said, before any of it is turned into years.
struct WrittenDate {
  enum class Open { none, after, from, before, until };

  bool undated = false;
  Open open = Open::none;
  WrittenBound left;
  std::optional<WrittenBound> right;
  bool may_abbreviate = false;  ///< the ends are parted by a dash or a slash
  bool slash = false;           ///< the ends are parted by a slash
  bool either = false;          ///< the ends are parted by "or"
  bool cross = false;           ///< the ends are parted by x
  Certainty certainty = Certainty::sure;
};

/// `tokens` as `date_tokens` gives them; `periods` may be null.
std::expected<WrittenDate, DateTrouble> parse_date(std::span<const DateToken> tokens, const PeriodIndex* periods);

}  // namespace sherd::notation
