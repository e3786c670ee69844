#include "notation/edtf.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "base/result.h"
#include "base/text.h"
#include "notation/edtf_date.h"

namespace sherd::notation {

namespace {

constexpr std::size_t kLongest = 120;  ///< bytes of a date that is worth reading

YearSpan years_of(const EdtfDate& date) { return date.unknown_year ? YearSpan{kAlways, kForEver} : date.years; }

/// The years as EDTF counts them, in ours.
std::string shown(const YearSpan& span) { return range_text(range_of(span)); }

class EdtfReader {
 public:
  EdtfReader(std::string_view text, bool centuries) : text_(text), cursor_(text), centuries_(centuries) {
    out_.style = "edtf";
  }

  std::expected<DateReading, DateTrouble> run() {
    if (cursor_.peek() == '[' || cursor_.peek() == '{') {
      SHERD_CHECK(set());
    } else if (text_.find('/') != std::string_view::npos) {
      SHERD_CHECK(interval());
    } else {
      SHERD_TRY(const EdtfDate date, edtf_date(cursor_, {.time = true, .centuries = centuries_}));
      keep(date);
      out_.range = range_of(years_of(date));
      if (date.years.from != date.years.to && !date.estimate && !date.unknown_year) {
        out_.because.push_back(fmt::format("{}: some year of {}", text_, shown(date.years)));
      }
    }
    if (!cursor_.done()) return cursor_.trouble("nothing that EDTF knows may follow here");
    finish();
    return out_;
  }

 private:
  using Done = std::expected<void, DateTrouble>;

  void keep(const EdtfDate& date) {
    level_ = std::max(level_, date.level);
    if (date.uncertain) out_.certainty = Certainty::probable;
    out_.circa = out_.circa || date.approximate;
    below_year_ = below_year_ || date.below_year;
    if (date.unknown_year) out_.because.emplace_back("XXXX: the year is not known");
    if (date.estimate) {
      out_.because.push_back(
          fmt::format("some year of {}, estimated to be {}", shown(date.years), year_text(Year{*date.estimate})));
    }
  }

  /// One end of an interval: a date, .. for open, nothing for unknown.
  std::expected<std::optional<EdtfDate>, DateTrouble> interval_end(bool start) {
    const std::string_view which = start ? "start" : "end";
    const bool nothing = start ? cursor_.peek() == '/' : cursor_.done();
    if (nothing || cursor_.take("..")) {
      level_ = std::max(level_, 1);
      out_.because.push_back(fmt::format("the {} is {}", which, nothing ? "unknown" : "open"));
      return std::nullopt;
    }
    SHERD_TRY(const EdtfDate date, edtf_date(cursor_));
    keep(date);
    return date;
  }

  Done interval() {
    SHERD_TRY(const auto first, interval_end(true));
    if (!cursor_.take("/")) return cursor_.trouble("a slash is wanted here");
    const EdtfCursor at_second = cursor_;
    SHERD_TRY(const auto second, interval_end(false));
    if (!first && !second) return EdtfCursor(text_).trouble("an interval wants a date at one end at least");
    const YearSpan left = first ? years_of(*first) : YearSpan{kAlways, kAlways};
    const YearSpan right = second ? years_of(*second) : YearSpan{kForEver, kForEver};
    const bool same_year = first && second && left == right && left.from == left.to;
    const bool turned = same_year && first->month && second->month &&
                        (*second->month < *first->month ||
                         (second->month == first->month && first->day && second->day && *second->day < *first->day));
    if (left.from > right.to || turned) return at_second.trouble("the interval ends here before it starts");
    out_.range = range_of({left.from, right.to});
    return {};
  }

  /// [1667,1668,1670..1672], {..1984}
  Done set() {
    const bool one_of = cursor_.peek() == '[';
    const std::string_view close = one_of ? "]" : "}";
    cursor_.skip();
    level_ = 2;
    std::vector<YearSpan> members;
    do {
      SHERD_TRY(const YearSpan member, set_member(close, members.empty()));
      members.push_back(member);
    } while (cursor_.take(","));
    if (!cursor_.take(close)) return cursor_.trouble("a comma or the closing bracket is wanted here");
    YearSpan whole{kForEver, kAlways};
    for (const YearSpan& member : members) {
      whole = {std::min(whole.from, member.from), std::max(whole.to, member.to)};
      if (one_of && members.size() > 1) out_.either.push_back(range_of(member));
    }
    out_.range = range_of(whole);
    out_.because.emplace_back(one_of ? "one of a set" : "all of a set; the range spans them");
    return {};
  }

  std::expected<YearSpan, DateTrouble> set_member(std::string_view close, bool first) {
    if (cursor_.starts("..")) {
      if (!first) return cursor_.trouble(".. with nothing before it begins a set only");
      cursor_.skip(2);
      SHERD_TRY(const EdtfDate date, edtf_date(cursor_));
      keep(date);
      return YearSpan{kAlways, years_of(date).to};
    }
    SHERD_TRY(const EdtfDate date, edtf_date(cursor_));
    keep(date);
    if (!cursor_.take("..")) return years_of(date);
    if (cursor_.starts(close)) return YearSpan{years_of(date).from, kForEver};
    const EdtfCursor at_second = cursor_;
    SHERD_TRY(const EdtfDate last, edtf_date(cursor_));
    keep(last);
    if (years_of(date).from > years_of(last).to) return at_second.trouble("the run ends here before it starts");
    return YearSpan{years_of(date).from, years_of(last).to};
  }

  void finish() {
    out_.because.insert(out_.because.begin(), fmt::format("EDTF, level {}", level_));
    if (below_year_) out_.because.emplace_back("a date is kept to the year: month and day are left out");
    if (out_.circa) out_.because.emplace_back("approximate: EDTF gives no width, so the years stand as written");
    out_.edtf = std::string(text_);
  }

  std::string_view text_;
  EdtfCursor cursor_;
  bool centuries_;
  int level_ = 0;
  bool below_year_ = false;
  DateReading out_;
};

std::string year_of(std::int64_t year) {
  const std::string_view sign = year < 0 ? "-" : "";
  const std::int64_t magnitude = std::abs(year);
  return magnitude > 9999 ? fmt::format("Y{}{}", sign, magnitude) : fmt::format("{}{:04}", sign, magnitude);
}

std::string_view qualifier(Certainty certainty, bool circa) {
  if (certainty == Certainty::sure) return circa ? "~" : "";
  return circa ? "%" : "?";
}

bool is_place(char c) { return (c >= '0' && c <= '9') || c == 'X' || c == 'x'; }

/// 20XX, 1XXX-12: four places, the last of them open.
bool has_open_places(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (!is_place(text[i])) continue;
    std::size_t end = i;
    while (end < text.size() && is_place(text[end])) ++end;
    if (end - i == 4 && (text[end - 1] == 'X' || text[end - 1] == 'x')) return true;
    i = end;
  }
  return false;
}

bool is_whole_day(std::string_view text) {
  const auto digits = [&](std::size_t from, std::size_t n) {
    return std::ranges::all_of(text.substr(from, n), [](char c) { return c >= '0' && c <= '9'; });
  };
  return text.size() >= 10 && text[4] == '-' && text[7] == '-' && digits(0, 4) && digits(5, 2) && digits(8, 2);
}

}  // namespace

bool looks_like_edtf(std::string_view text) {
  if (text.size() < 4 || text.find_first_not_of("0123456789XxYSETZ?~%-./,:+[]{}") != std::string_view::npos)
    return false;
  const auto digit = [&](std::size_t at) { return at < text.size() && text[at] >= '0' && text[at] <= '9'; };
  if (text.front() == 'Y' || text.front() == '[' || text.front() == '{') return true;
  if (text.front() == '/' || text.back() == '/') return true;
  if (text.find("/..") != std::string_view::npos || text.starts_with("../")) return true;
  if (text.find('%') != std::string_view::npos || is_whole_day(text) || has_open_places(text)) return true;
  const std::size_t approximate = text.find('~', 1);
  if (approximate != std::string_view::npos && digit(approximate - 1)) return true;
  const std::size_t significant = text.find('S', 1);
  return significant != std::string_view::npos && digit(significant - 1) && digit(significant + 1);
}

Result<DateReading> read_edtf(std::string_view text, bool centuries) {
  text = trim(text);
  if (text.empty()) return unreadable_date(text, {0, "there is nothing here"});
  if (text.size() > kLongest) return unreadable_date(text, {0, "this is too long for a date"});
  auto reading = EdtfReader(text, centuries).run();
  if (!reading) return unreadable_date(text, reading.error());
  return std::move(*reading);
}

std::string edtf_text(const YearRange& range, Certainty certainty, bool circa) {
  if (range.empty()) return "XXXX";
  const std::string_view mark = qualifier(certainty, circa);
  if (range.earliest == range.latest) return fmt::format("{}{}", year_of(range.earliest->value), mark);
  const auto end = [&](const std::optional<Year>& year) {
    return year ? fmt::format("{}{}", year_of(year->value), mark) : std::string("..");
  };
  return end(range.earliest) + "/" + end(range.latest);
}

std::string edtf_one_of(std::span<const YearRange> ranges, Certainty certainty, bool circa) {
  const std::string_view mark = qualifier(certainty, circa);
  std::string out = "[";
  for (const YearRange& range : ranges) {
    if (out.size() > 1) out += ",";
    if (range.earliest) out += fmt::format("{}{}", year_of(range.earliest->value), mark);
    if (range.earliest == range.latest) continue;
    out += "..";
    if (range.latest) out += fmt::format("{}{}", year_of(range.latest->value), mark);
  }
  return out + "]";
}

}  // namespace sherd::notation
