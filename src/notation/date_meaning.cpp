#include "notation/date_meaning.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace sherd::notation {

namespace {

using Core = WrittenBound::Core;
using Open = WrittenDate::Open;
using Part = WrittenPart::Kind;

constexpr std::int64_t kLastCentury = 21;
constexpr std::int64_t kFarFuture = 2100;

/// Years inclusive, astronomical.
struct Span {
  std::int64_t from = 0;
  std::int64_t to = 0;
};

bool is_bc(const WrittenBound& bound) { return bound.era == Era::bc; }

std::string nth(std::int64_t n) {
  const std::int64_t ten = n / 10 % 10;
  const std::int64_t one = ten == 1 ? 0 : n % 10;
  return fmt::format("{}{}", n, one == 1 ? "st" : one == 2 ? "nd" : one == 3 ? "rd" : "th");
}

CenturyPart positions(const WrittenPart& part, const DateStyle& style) {
  const auto at = [](const auto& parts, int which) { return parts[static_cast<std::size_t>(which - 1)]; };
  constexpr std::array<CenturyPart, 3> kThirds{{{1, 33}, {34, 67}, {68, 100}}};
  switch (part.kind) {
    case Part::thirds:
      return {at(style.parts, part.first).first, at(style.parts, part.last).last};
    case Part::half:
      return {50 * part.first - 49, 50 * part.last};
    case Part::quarter:
      return {25 * part.first - 24, 25 * part.last};
    case Part::third:
      return {at(kThirds, part.first).first, at(kThirds, part.last).last};
  }
  return {};
}

std::string part_text(const WrittenPart& part) {
  constexpr std::array<std::string_view, 3> kNames{"early", "mid", "late"};
  const auto name = [&](int which) { return kNames[static_cast<std::size_t>(which - 1)]; };
  if (part.kind == Part::thirds) {
    return part.first == part.last ? std::string(name(part.first))
                                   : fmt::format("{} to {}", name(part.first), name(part.last));
  }
  const std::string_view kind = part.kind == Part::half ? "half" : part.kind == Part::quarter ? "quarter" : "third";
  return fmt::format("{} {} of the", nth(part.first), kind);
}

Span century_span(const WrittenBound& bound, const DateStyle& style) {
  const CenturyPart part = bound.part ? positions(*bound.part, style) : CenturyPart{};
  // A style that begins its centuries in 200 rather than 201 begins those before Christ in 199 rather than 200.
  const std::int64_t first = is_bc(bound) ? -100 * bound.number + 1 + (style.century_starts == -100 ? 1 : 0)
                                          : 100 * bound.number + style.century_starts;
  Span out{first + part.first - 1, first + part.last - 1};
  // The first century stops short where the year 0 would be.
  if (is_bc(bound)) out.to = std::min<std::int64_t>(out.to, 0);
  if (!is_bc(bound)) out.from = std::max<std::int64_t>(out.from, 1);
  return out;
}

class Meaning {
 public:
  Meaning(WrittenDate& date, const DateStyle& style) : date_(date), style_(style) {
    out_.style = style.name;
    out_.certainty = date.certainty;
  }

  std::expected<DateReading, DateTrouble> run() {
    if (date_.undated) return out_;
    if (date_.right) SHERD_CHECK(complete_range());
    if (date_.left.core == Core::none) return std::unexpected(DateTrouble{date_.left.at, "which century is not said"});
    warn_of_era();
    warn_of_small_numbers();
    Span left = span(date_.left);
    Span right = date_.right ? span(*date_.right) : left;
    if (left.from > right.to) {
      return std::unexpected(DateTrouble{date_.right->at, "the range ends here before it starts"});
    }
    widen(left, right);
    set_range({left.from, right.to}, left);
    if (right.to > kFarFuture) out_.warnings.push_back(fmt::format("{} lies in the future", right.to));
    return out_;
  }

 private:
  WrittenBound& right() { return *date_.right; }

  /// Each end of a range may leave to the other what it does not say itself.
  std::expected<void, DateTrouble> complete_range() {
    if (right().core == Core::none) {
      return std::unexpected(DateTrouble{right().at, "the end of the range has no year and no century"});
    }
    share_century();
    share_era();
    abbreviated();
    return {};
  }

  void share_century() {
    WrittenBound& left = date_.left;
    // early to mid 13th
    if (left.core == Core::none && right().core == Core::century) {
      left.core = Core::century;
      left.number = right().number;
    }
    // 1st-2nd quarter C2
    const bool counted = right().part && right().part->kind != Part::thirds;
    if (left.ordinal && !left.named && !left.part && !left.era && counted && left.number <= right().part->first) {
      left.part = WrittenPart{right().part->kind, static_cast<int>(left.number), static_cast<int>(left.number)};
      left.number = right().number;
    }
    // C2-3, L13-14; 2-3rd c.
    const auto may_be = [](const WrittenBound& bound) {
      return bound.core == Core::year && bound.number >= 1 && bound.number <= kLastCentury && !bound.circa;
    };
    if (left.core == Core::century && may_be(right()) && !right().era_before) right().core = Core::century;
    if (right().core == Core::century && right().ordinal && may_be(left) && !left.era_before) left.core = Core::century;
  }

  void share_era() {
    WrittenBound& left = date_.left;
    if (!left.era && is_bc(right())) left.era = Era::bc;
    if (!is_bc(left) || right().era) return;
    // BC 100-40 counts down, so that the era stands for both; 100 BC-40 steps over into AD.
    if (left.era_before && right().number < left.number) {
      right().era = Era::bc;
      return;
    }
    out_.warnings.emplace_back("the range was read as running from BC into AD; write the era at both ends to be sure");
  }

  /// 1120-35 is 1120-1135.
  void abbreviated() {
    const WrittenBound& left = date_.left;
    WrittenBound& end = right();
    const bool years = left.core == Core::year && end.core == Core::year;
    if (!years || !date_.may_abbreviate || is_bc(left) || is_bc(end) || (left.era && end.era) || end.era_before) return;
    if (end.circa || end.digits >= left.digits || end.number >= left.number) return;
    std::int64_t power = 1;
    for (int i = 0; i < end.digits; ++i) power *= 10;
    const std::int64_t whole = left.number / power * power + end.number;
    if (whole < left.number) return;
    out_.because.push_back(
        fmt::format("{}-{:0{}} is short for {}-{}", left.number, end.number, end.digits, left.number, whole));
    end.number = whole;
    end.digits = left.digits;
  }

  void warn_of_era() {
    if (date_.left.small_bc || (date_.right && right().small_bc)) {
      out_.warnings.emplace_back("bc in small letters was read as BC; with radiocarbon it would mean uncalibrated");
    }
  }

  /// 13-14 may have been meant for centuries.
  void warn_of_small_numbers() {
    const auto small = [](const WrittenBound& bound) {
      return bound.core == Core::year && bound.number >= 1 && bound.number <= kLastCentury && !bound.era;
    };
    if (!small(date_.left) || (date_.right && !small(right()))) return;
    out_.warnings.emplace_back("a number this small was read as a year; for the century write C before it");
  }

  Span span(const WrittenBound& bound) {
    if (bound.core == Core::year) {
      if (bound.number == 0) out_.warnings.emplace_back("there is no year 0; it was read as 1 BC");
      const std::int64_t year = from_historical(is_bc(bound) ? -bound.number : bound.number).value;
      return {year, year};
    }
    const Span out = century_span(bound, style_);
    out_.because.push_back(fmt::format("{}{}{} century{}: {}", bound.part ? part_text(*bound.part) : "",
                                       bound.part ? " " : "", nth(bound.number), is_bc(bound) ? " BC" : "",
                                       range_text({Year{out.from}, Year{out.to}})));
    return out;
  }

  /// Circa before a range stands for both of its ends.
  void widen(Span& left, Span& right) {
    const bool at_right = date_.right && right_is_circa();
    out_.circa = date_.left.circa || at_right;
    if (!out_.circa) return;
    if (date_.right && !style_.circa_widens_ranges) {
      out_.because.push_back(fmt::format("circa: does not widen a range in the style {}", style_.name));
      return;
    }
    const std::int64_t before = date_.left.circa ? style_.circa : 0;
    const std::int64_t after = date_.left.circa || at_right ? style_.circa : 0;
    left.from -= before;
    right.to += after;
    if (!date_.right) left.to = right.to;
    out_.because.push_back(fmt::format("circa: {} years either side", style_.circa));
  }

  bool right_is_circa() const { return date_.right->circa; }

  void set_range(const Span& whole, const Span& left) {
    const auto limit = [&](std::int64_t year, int sign) {
      return style_.open_years ? std::optional(Year{year + sign * *style_.open_years}) : std::nullopt;
    };
    const bool circa = date_.left.circa;
    switch (date_.open) {
      case Open::none:
        out_.range = {Year{whole.from}, Year{whole.to}};
        return;
      case Open::after:  // not before the end of what is named, unless that is vague itself
        out_.range.earliest = Year{circa ? left.from : left.to};
        out_.range.latest = limit(out_.range.earliest->value, 1);
        break;
      case Open::from:
        out_.range.earliest = Year{left.from};
        out_.range.latest = limit(left.from, 1);
        break;
      case Open::before:
        out_.range.latest = Year{(circa ? left.to : left.from) - 1};
        out_.range.earliest = limit(out_.range.latest->value, -1);
        break;
      case Open::until:
        out_.range.latest = Year{left.to};
        out_.range.earliest = limit(left.to, -1);
        break;
    }
    out_.because.push_back("open: " + range_text(out_.range));
  }

  WrittenDate& date_;
  const DateStyle& style_;
  DateReading out_;
};

}  // namespace

std::expected<DateReading, DateTrouble> date_meaning(WrittenDate date, const DateStyle& style) {
  return Meaning(date, style).run();
}

}  // namespace sherd::notation
