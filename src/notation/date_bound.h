#pragma once

#include <algorithm>
#include <cstddef>
#include <expected>
#include <span>
#include <string>
#include <string_view>

#include "base/result.h"
#include "notation/date_parser.h"
#include "notation/date_tokens.h"

namespace sherd::notation {

/// Reads one end of a range from the pieces of a date:
/// [doubt] [circa] [era] [part of a century] year, decade, century or millennium [era] [doubt], the first three in any
/// order; or the name of a reign, a house or a period.
class BoundReader {
 public:
  /// `periods` may be null.
  BoundReader(std::span<const DateToken> tokens, const PeriodIndex* periods) : tokens_(tokens), periods_(periods) {}

  std::expected<WrittenBound, DateTrouble> bound();

  /// Takes ?, (?), prob., possibly ... and keeps the greater doubt.
  void doubt();
  Certainty certainty() const { return certainty_; }

  /// Takes AD, BC, CE, BCE where one stands here.
  bool era(WrittenBound& bound, bool before);

  const DateToken& token(std::size_t ahead = 0) const { return tokens_[std::min(at_ + ahead, tokens_.size() - 1)]; }
  void next() { at_ = std::min(at_ + 1, tokens_.size() - 1); }
  /// A dash, a slash, "to", "or" (but not "or later"), x.
  bool at_separator(std::size_t ahead = 0) const;
  /// The name of a period, reign or house begins here.
  bool at_period(std::size_t ahead = 0) const;
  std::unexpected<DateTrouble> trouble(std::string_view why) const;

 private:
  using Done = std::expected<void, DateTrouble>;

  bool one_doubt();
  Done before_core(WrittenBound& bound);
  std::expected<bool, DateTrouble> letter_c(WrittenBound& bound);
  bool circa_word();
  bool part(WrittenBound& bound);
  bool named_part(WrittenBound& bound);
  bool ordinal_part(WrittenBound& bound);
  std::expected<bool, DateTrouble> period(WrittenBound& bound);
  std::unexpected<DateTrouble> no_part(std::size_t ahead) const;
  std::string wanted() const;
  Done core(WrittenBound& bound);
  Done after_c(WrittenBound& bound);
  Done number(WrittenBound& bound);
  Done decade(WrittenBound& bound);
  Done check_century(const WrittenBound& bound, bool bare, std::size_t start);
  void century_word(WrittenBound& bound);
  void point();

  std::span<const DateToken> tokens_;
  const PeriodIndex* periods_;
  std::size_t at_ = 0;
  Certainty certainty_ = Certainty::sure;
};

}  // namespace sherd::notation
