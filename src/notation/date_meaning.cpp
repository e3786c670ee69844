#include "notation/date_meaning.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "notation/date_complete.h"
#include "notation/date_span.h"

namespace sherd::notation {

namespace {

using Core = WrittenBound::Core;
using Open = WrittenDate::Open;

constexpr std::int64_t kLastCentury = 21;
constexpr std::int64_t kFarFuture = 2100;
constexpr std::int64_t kPresent = 1950;  ///< of years before present

class Meaning {
 public:
  Meaning(WrittenDate& date, const DateContext& context) : date_(date), context_(context), style_(context.style) {
    out_.style = style_.name;
    out_.certainty = date.certainty;
  }

  std::expected<DateReading, DateTrouble> run() {
    if (date_.undated) return out_;
    if (date_.right) SHERD_CHECK(complete_range(date_, out_.because, out_.warnings));
    if (date_.left.core == Core::none) return std::unexpected(DateTrouble{date_.left.at, "which century is not said"});
    if (context_.small_letters_uncalibrated && small_letters()) return uncalibrated();
    warn_of_era();
    warn_of_small_numbers();
    SHERD_TRY(YearSpan left, span(date_.left));
    YearSpan right = left;
    if (date_.right) {
      SHERD_TRY(right, span(right_bound()));
    }
    if (left.from > right.to) {
      return std::unexpected(DateTrouble{date_.right->at, "the range ends here before it starts"});
    }
    set_either(left, right);
    SHERD_CHECK(widen(left, right));
    SHERD_CHECK(set_range({left.from, right.to}, left));
    if (right.to > kFarFuture && right.to < kForEver) {
      out_.warnings.push_back(fmt::format("{} lies in the future", right.to));
    }
    return out_;
  }

 private:
  WrittenBound& right_bound() { return *date_.right; }

  bool small_letters() const {
    const auto small = [](const WrittenBound& bound) { return bound.small_bc || bound.small_ad; };
    return small(date_.left) || (date_.right && small(*date_.right));
  }

  /// bc = BP - 1949, ad = 1950 - BP
  std::expected<DateReading, DateTrouble> uncalibrated() {
    SHERD_TRY(const YearSpan left, span(date_.left));
    YearSpan right = left;
    if (date_.right) {
      SHERD_TRY(right, span(right_bound()));
    }
    if (left.from > right.to) {
      return std::unexpected(DateTrouble{date_.right->at, "the range ends here before it starts"});
    }
    DateReading out =
        age_reading(DateKind::uncalibrated, {kPresent - left.from, kPresent - right.to, std::nullopt}, style_);
    out.certainty = out_.certainty;
    return out;
  }

  void warn_of_era() {
    if (date_.left.small_bc || (date_.right && right_bound().small_bc)) {
      out_.warnings.emplace_back("bc in small letters was read as BC; with radiocarbon it would mean uncalibrated");
    }
  }

  /// 13-14 may have been meant for centuries.
  void warn_of_small_numbers() {
    const auto small = [](const WrittenBound& bound) {
      return bound.core == Core::year && bound.number >= 1 && bound.number <= kLastCentury && !bound.era;
    };
    if (!small(date_.left) || (date_.right && !small(right_bound()))) return;
    out_.warnings.emplace_back("a number this small was read as a year; for the century write C before it");
  }

  std::expected<YearSpan, DateTrouble> span(const WrittenBound& bound) {
    const Era era = bound.era.value_or(Era::ad);
    YearSpan out;
    switch (bound.core) {
      case Core::period:
        return period_span(bound);
      case Core::none:
      case Core::year: {
        if (bound.number == 0) out_.warnings.emplace_back("there is no year 0; it was read as 1 BC");
        const std::int64_t year = from_historical(era == Era::bc ? -bound.number : bound.number).value;
        return YearSpan{year, year};
      }
      case Core::decade:
        if (bound.number < 100)
          return std::unexpected(DateTrouble{bound.at, "the decade of which century is not said"});
        out = decade_span(bound.number, era);
        out_.because.push_back(
            fmt::format("{}s{}: {}", bound.number, era == Era::bc ? " BC" : "", range_text(range_of(out))));
        return out;
      case Core::century:
        out = century_span(bound.number, era, bound.part, style_);
        break;
      case Core::millennium:
        out = millennium_span(bound.number, era, bound.part);
        break;
    }
    out_.because.push_back(fmt::format("{}{}{} {}{}: {}", bound.part ? part_text(*bound.part) : "",
                                       bound.part ? " " : "", nth(bound.number),
                                       bound.core == Core::century ? "century" : "millennium",
                                       era == Era::bc ? " BC" : "", range_text(range_of(out))));
    return out;
  }

  YearSpan period_span(const WrittenBound& bound) {
    const PeriodRow& row = *bound.period;
    const YearSpan out{row.earliest ? row.earliest->value : kAlways, row.latest ? row.latest->value : kForEver};
    out_.because.push_back(
        fmt::format("{}: {}, by {} ({})", row.name, range_text(range_of(out)), row.authority, row.source));
    std::string& authority = out_.period_authority;
    if (authority.empty()) {
      authority = row.authority;
    } else if (authority != row.authority) {
      authority += ", " + row.authority;
    }
    if (row.kind == PeriodKind::period) {
      warn_once("a period's ends are not the object's: use the object's own dates where there are any");
    }
    if (row.known == Known::memory) warn_once(fmt::format("the years of {} are unverified: from memory", row.name));
    if (bound.elsewhere) {
      warn_once(fmt::format("{} does not give {}; its years are those of {}", context_.periods->authority(), row.name,
                            row.authority));
    }
    return out;
  }

  void warn_once(std::string text) {
    if (std::ranges::find(out_.warnings, text) == out_.warnings.end()) out_.warnings.push_back(std::move(text));
  }

  void set_either(const YearSpan& left, const YearSpan& right) {
    if (date_.cross) out_.because.emplace_back("x: at some time between the two, and not all the time");
    if (!date_.right || (!date_.either && !(date_.slash && context_.slash_is_either))) return;
    out_.either = {range_of(left), range_of(right)};
    out_.because.push_back(
        fmt::format("either {} or {}, and nothing between", range_text(out_.either[0]), range_text(out_.either[1])));
  }

  /// Circa before a range stands for both of its ends.
  std::expected<void, DateTrouble> widen(YearSpan& left, YearSpan& right) {
    const bool at_right = date_.right && right_bound().circa;
    out_.circa = date_.left.circa || at_right;
    if (date_.left.flourished) SHERD_CHECK(widen_flourished(left, right));
    if (!out_.circa) return {};
    if (date_.right && !style_.circa_widens_ranges) {
      out_.because.push_back(fmt::format("circa: does not widen a range in the style {}", style_.name));
      return {};
    }
    const int before = date_.left.circa ? style_.circa : 0;
    widen_by(left, right, before, style_.circa);
    for (std::size_t i = date_.left.circa ? 0 : 1; i < out_.either.size(); ++i) {  // each of the two on its own
      if (out_.either[i].earliest) out_.either[i].earliest->value -= style_.circa;
      if (out_.either[i].latest) out_.either[i].latest->value += style_.circa;
    }
    out_.because.push_back(fmt::format("circa: {} years either side", style_.circa));
    return {};
  }

  void widen_by(YearSpan& left, YearSpan& right, int before, int after) const {
    left.from -= before;
    right.to += after;
    if (!date_.right) left.to = right.to;
  }

  std::expected<void, DateTrouble> widen_flourished(YearSpan& left, YearSpan& right) {
    if (date_.right) {
      out_.because.emplace_back("fl.: the years of work are as given");
      return {};
    }
    if (!style_.flourished) {
      return std::unexpected(DateTrouble{
          date_.left.at,
          "the style " + style_.name + " does not say how far fl. reaches: write a range, or take object-id"});
    }
    widen_by(left, right, *style_.flourished, *style_.flourished);
    out_.because.push_back(fmt::format("fl.: {} years either side", *style_.flourished));
    return {};
  }

  std::expected<void, DateTrouble> set_range(const YearSpan& whole, const YearSpan& left) {
    const bool vague = date_.left.circa || date_.left.flourished;
    YearSpan out = whole;
    const auto limit = [&](std::int64_t year, int sign) {
      return style_.open_years ? year + sign * *style_.open_years : (sign > 0 ? kForEver : kAlways);
    };
    switch (date_.open) {
      case Open::none:
        out_.range = range_of(whole);
        return {};
      case Open::after:  // not before the end of what is named, unless that is vague itself
        out.from = vague ? left.from : left.to;
        out.to = limit(out.from, 1);
        break;
      case Open::from:
        out.from = left.from;
        out.to = limit(left.from, 1);
        break;
      case Open::before:
        out.to = (vague ? left.to : left.from) - 1;
        out.from = limit(out.to, -1);
        break;
      case Open::until:
        out.to = left.to;
        out.from = limit(left.to, -1);
        break;
    }
    const bool forward = date_.open == Open::after || date_.open == Open::from;
    if (forward ? (out.from <= kAlways || out.from >= kForEver) : (out.to >= kForEver || out.to <= kAlways)) {
      return std::unexpected(DateTrouble{date_.left.at, "the table gives no year at that end of this period"});
    }
    out_.range = range_of(out);
    out_.because.push_back("open: " + range_text(out_.range));
    return {};
  }

  WrittenDate& date_;
  const DateContext& context_;
  const DateStyle& style_;
  DateReading out_;
};

}  // namespace

DateReading age_reading(DateKind kind, const RadiocarbonAge& age, const DateStyle& style) {
  DateReading out;
  out.style = style.name;
  out.kind = kind;
  out.age = age;
  std::string text = age.older == age.younger ? std::to_string(age.older)
                                              : std::to_string(age.older) + "-" + std::to_string(age.younger);
  if (age.sd) text += " \u00B1 " + std::to_string(*age.sd);
  out.because.push_back("radiocarbon age: " + text + " BP, years before 1950");
  out.warnings.emplace_back("a radiocarbon age has no calendar years until it is calibrated");
  if (!age.sd) out.warnings.emplace_back("the age has no error: without one it cannot be calibrated");
  return out;
}

std::expected<DateReading, DateTrouble> date_meaning(WrittenDate date, const DateContext& context) {
  return Meaning(date, context).run();
}

}  // namespace sherd::notation
