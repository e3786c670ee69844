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
/// [doubt] [circa] [era] [part of a century] year or century [era] [doubt], the first three in any order.
class BoundReader {
 public:
  explicit BoundReader(std::span<const DateToken> tokens) : tokens_(tokens) {}

  std::expected<WrittenBound, DateTrouble> bound();

  /// Takes ?, (?), prob., possibly ... and keeps the greater doubt.
  void doubt();
  Certainty certainty() const { return certainty_; }

  const DateToken& token(std::size_t ahead = 0) const { return tokens_[std::min(at_ + ahead, tokens_.size() - 1)]; }
  void next() { at_ = std::min(at_ + 1, tokens_.size() - 1); }
  /// A dash, a slash, "to", "or" (but not "or later"), x.
  bool at_separator(std::size_t ahead = 0) const;
  std::unexpected<DateTrouble> trouble(std::string_view why) const;

 private:
  using Done = std::expected<void, DateTrouble>;

  bool one_doubt();
  Done before_core(WrittenBound& bound);
  std::expected<bool, DateTrouble> letter_c(WrittenBound& bound);
  bool circa_word();
  bool era(WrittenBound& bound, bool before);
  bool part(WrittenBound& bound);
  bool named_part(WrittenBound& bound);
  bool ordinal_part(WrittenBound& bound);
  Done core(WrittenBound& bound);
  Done number(WrittenBound& bound);
  void century_word(WrittenBound& bound);
  void point();

  std::span<const DateToken> tokens_;
  std::size_t at_ = 0;
  Certainty certainty_ = Certainty::sure;
};

}  // namespace sherd::notation
