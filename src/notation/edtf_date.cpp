#include "notation/edtf_date.h"

#include <algorithm>
#include <array>
#include <string>

#include "base/result.h"

namespace sherd::notation {

namespace {

constexpr std::int64_t kFarthest = 1'000'000'000'000;  ///< years that are worth reading
constexpr std::array<int, 12> kDays{31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_place(char c) { return is_digit(c) || c == 'X'; }

bool is_leap(std::int64_t year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

/// True where `number` (two digits) may be what `places` stands for.
bool may_be(std::string_view places, int number) {
  const auto fits = [](char place, int digit) { return place == 'X' || place - '0' == digit; };
  return fits(places[0], number / 10) && fits(places[1], number % 10);
}

bool may_be_any(std::string_view places, int from, int to) {
  for (int number = from; number <= to; ++number) {
    if (may_be(places, number)) return true;
  }
  return false;
}

std::optional<int> whole(std::string_view places) {
  if (!is_digit(places[0]) || !is_digit(places[1])) return std::nullopt;
  return (places[0] - '0') * 10 + (places[1] - '0');
}

class DateTaker {
 public:
  DateTaker(EdtfCursor& cursor, EdtfAllowed allowed) : cursor_(cursor), allowed_(allowed) {}

  std::expected<EdtfDate, DateTrouble> run() {
    if (qualify(true)) out_.level = 2;
    if (cursor_.peek() == 'Y') {
      SHERD_CHECK(long_year());
    } else {
      SHERD_CHECK(short_year());
    }
    if (qualify(true)) raise(may_go_on_ && cursor_.peek() == '-' ? 2 : 1);
    if (may_go_on_ && cursor_.take("-")) SHERD_CHECK(month());
    return out_;
  }

 private:
  using Done = std::expected<void, DateTrouble>;

  void raise(int level) { out_.level = std::max(out_.level, level); }

  /// Takes ?, ~ or %; `of_year` where it holds for the year.
  bool qualify(bool of_year) {
    const char c = cursor_.peek();
    if (c != '?' && c != '~' && c != '%') return false;
    cursor_.skip();
    if (of_year && c != '~') out_.uncertain = true;
    if (of_year && c != '?') out_.approximate = true;
    return true;
  }

  /// Digits from the place on; at most `most`.
  std::string_view digits(std::string& held, std::size_t most) {
    held.clear();
    while (held.size() < most && is_digit(cursor_.peek())) {
      held += cursor_.peek();
      cursor_.skip();
    }
    return held;
  }

  /// Y170000002, Y-17E7, Y3388E2S3
  Done long_year() {
    const EdtfCursor start = cursor_;
    cursor_.skip();
    const bool negative = cursor_.take("-");
    std::string held;
    if (digits(held, 13).empty() || held.front() == '0') return cursor_.trouble("the digits of a year are wanted here");
    std::int64_t value = std::stoll(held);
    raise(1);
    if (cursor_.take("E")) {
      if (digits(held, 2).empty()) return cursor_.trouble("the power of ten is wanted here");
      for (int power = std::stoi(held); power > 0 && value <= kFarthest; --power) value *= 10;
      raise(2);
    }
    if (value > kFarthest) return start.trouble("this year is too far away");
    if (value <= 9999) return start.trouble("Y stands before a year of more than four digits only");
    out_.years = negative ? YearSpan{-value, -value} : YearSpan{value, value};
    may_go_on_ = false;
    return significant(value, negative);
  }

  /// 1985, -0119, 20XX; 20 and 198 are a century and a decade of ISO 8601-1.
  Done short_year() {
    const EdtfCursor start = cursor_;
    const bool negative = cursor_.take("-");
    std::string places;
    while (places.size() < 5 && is_place(cursor_.peek())) {
      places += cursor_.peek();
      cursor_.skip();
    }
    if (allowed_.centuries && (places.size() == 2 || places.size() == 3)) return few_digits(start, places, negative);
    if (places.size() != 4) {
      return start.trouble(places.empty() ? "a year of four digits is wanted here" : "a year has four digits in EDTF");
    }
    std::int64_t low = 0;
    std::int64_t high = 0;
    for (const char c : places) {
      low = low * 10 + (c == 'X' ? 0 : c - '0');
      high = high * 10 + (c == 'X' ? 9 : c - '0');
    }
    if (negative && high == 0) return start.trouble("there is no year -0000");
    out_.years = negative ? YearSpan{-high, -std::max<std::int64_t>(low, 1)} : YearSpan{low, high};
    out_.unknown_year = places == "XXXX";
    const auto unspecified = std::ranges::count(places, 'X');
    const bool from_right = places.find_first_not_of('X', places.find('X')) == std::string::npos;
    whole_ = unspecified == 0;
    if (unspecified > 0) raise(from_right && unspecified <= 2 ? 1 : 2);
    if (negative) raise(1);
    if (!whole_ && cursor_.peek() == 'S') return cursor_.trouble("X and S do not go together");
    return significant(high, negative);
  }

  Done few_digits(const EdtfCursor& start, std::string_view places, bool negative) {
    if (negative || places.find('X') != std::string_view::npos || cursor_.peek() == '-' || cursor_.peek() == 'S') {
      return start.trouble("a year has four digits in EDTF");
    }
    std::int64_t value = 0;
    for (const char c : places) value = value * 10 + (c - '0');
    const std::int64_t width = places.size() == 2 ? 100 : 10;
    out_.years = {value * width, value * width + width - 1};
    may_go_on_ = false;
    whole_ = false;
    return {};
  }

  /// 1950S2: the first two digits hold.
  Done significant(std::int64_t magnitude, bool negative) {
    if (!cursor_.take("S")) return {};
    std::string held;
    if (digits(held, 2).empty() || held == "0" || held == "00") {
      return cursor_.trouble("the number of significant digits is wanted here");
    }
    const std::size_t all = std::to_string(magnitude).size();
    // A four-digit year keeps its leading noughts.
    const std::size_t length = may_go_on_ ? 4 : all;
    const auto held_digits = static_cast<std::size_t>(std::stoi(held));
    if (held_digits > length) return cursor_.trouble("the year has fewer digits than are said to hold");
    std::int64_t width = 1;
    for (std::size_t i = held_digits; i < length; ++i) width *= 10;
    const std::int64_t low = magnitude / width * width;
    const std::int64_t high = low + width - 1;
    out_.years = negative ? YearSpan{-high, -low} : YearSpan{low, high};
    out_.estimate = negative ? -magnitude : magnitude;
    may_go_on_ = false;
    raise(2);
    return {};
  }

  Done two(std::string& places) {
    if (!is_place(cursor_.peek()) || !is_place(cursor_.peek(1)) || is_place(cursor_.peek(2))) {
      return cursor_.trouble("two digits are wanted here");
    }
    places = {cursor_.peek(), cursor_.peek(1)};
    return {};
  }

  Done month() {
    out_.below_year = true;
    if (qualify(false)) raise(2);
    std::string places;
    SHERD_CHECK(two(places));
    const bool is_month = may_be_any(places, 1, 12);
    const bool is_season = !is_month && may_be_any(places, 21, 41);
    if (!is_month && !is_season) return cursor_.trouble("months run from 01 to 12, seasons from 21 to 41");
    out_.month = is_month ? whole(places) : std::nullopt;
    cursor_.skip(2);
    if (is_season) raise(may_be_any(places, 21, 24) && whole(places) ? 1 : 2);
    if (!is_season && !whole(places)) raise(places == "XX" && whole_ ? 1 : 2);
    if (!whole_) raise(2);
    if (qualify(true)) raise(cursor_.peek() == '-' ? 2 : 1);
    if (is_season || !cursor_.take("-")) return {};
    return day(places);
  }

  Done day(std::string_view months) {
    if (qualify(false)) raise(2);
    std::string places;
    SHERD_CHECK(two(places));
    int longest = 0;
    for (int month = 1; month <= 12; ++month) {
      if (may_be(months, month)) longest = std::max(longest, days_in(month));
    }
    if (!may_be_any(places, 1, longest)) return cursor_.trouble("the month has no such day");
    out_.day = whole(places);
    cursor_.skip(2);
    if (!out_.day) raise(places == "XX" && whole_ && (out_.month || months == "XX") ? 1 : 2);
    if (qualify(true)) raise(1);
    if (allowed_.time && cursor_.peek() == 'T') return time_of_day();
    return {};
  }

  int days_in(int month) const {
    const bool known = out_.years.from == out_.years.to;
    if (month == 2 && known && !is_leap(out_.years.from)) return 28;
    return kDays[static_cast<std::size_t>(month - 1)];
  }

  /// T23:20:30 with nothing, Z, -04 or +04:30 behind it.
  Done time_of_day() {
    const EdtfCursor start = cursor_;
    cursor_.skip();
    if (!out_.month || !out_.day) return start.trouble("a time wants a whole day before it");
    const auto part = [&](int most) {
      std::string places{cursor_.peek(), cursor_.peek(1)};
      const auto value = whole(places);
      if (value && *value <= most) cursor_.skip(2);
      return value && *value <= most;
    };
    const bool clock = part(24) && cursor_.take(":") && part(59) && cursor_.take(":") && part(59);
    if (!clock) return cursor_.trouble("a time is written 23:20:30");
    if (cursor_.take("Z")) return {};
    if (!cursor_.take("+") && !cursor_.take("-")) return {};
    if (!part(14) || (cursor_.take(":") && !part(59))) return cursor_.trouble("a time shift is written +04 or +04:30");
    return {};
  }

  EdtfCursor& cursor_;
  EdtfAllowed allowed_;
  bool whole_ = true;      ///< no digit of the year is left open
  bool may_go_on_ = true;  ///< a month may follow
  EdtfDate out_;
};

}  // namespace

std::expected<EdtfDate, DateTrouble> edtf_date(EdtfCursor& cursor, EdtfAllowed allowed) {
  return DateTaker(cursor, allowed).run();
}

}  // namespace sherd::notation
