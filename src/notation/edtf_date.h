#pragma once

#include <cstdint>
#include <expected>
#include <optional>
#include <string_view>

#include "notation/date_span.h"
#include "notation/date_trouble.h"

namespace sherd::notation {

/// One date of EDTF, kept to the year.
struct EdtfDate {
  YearSpan years;
  bool unknown_year = false;  ///< XXXX
  bool uncertain = false;     ///< ? or % that holds for the year
  bool approximate = false;   ///< ~ or % that holds for the year
  bool below_year = false;    ///< a month, a season, a day or a time was given
  int level = 0;
  std::optional<std::int64_t> estimate;  ///< 1950S2 is estimated to be 1950
  std::optional<int> month, day;         ///< where given whole
};

/// Where in the text a reader stands.
class EdtfCursor {
 public:
  explicit EdtfCursor(std::string_view text) : text_(text) {}

  std::size_t at() const { return at_; }
  bool done() const { return at_ >= text_.size(); }
  char peek(std::size_t ahead = 0) const { return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0'; }
  bool starts(std::string_view what) const { return text_.substr(at_).starts_with(what); }
  void skip(std::size_t n = 1) { at_ += n; }
  bool take(std::string_view what) {
    if (!starts(what)) return false;
    at_ += what.size();
    return true;
  }
  std::unexpected<DateTrouble> trouble(std::string_view why) const {
    return std::unexpected(DateTrouble{at_, std::string(why)});
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
};

/// What a date may be beside year, month and day.
struct EdtfAllowed {
  bool time = false;       ///< a time of day
  bool centuries = false;  ///< YY, a century, and YYY, a decade
};

/// Takes one date; what follows it is left to the caller.
std::expected<EdtfDate, DateTrouble> edtf_date(EdtfCursor& cursor, EdtfAllowed allowed = {});

}  // namespace sherd::notation
