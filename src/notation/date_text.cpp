#include "notation/date_text.h"

#include <fmt/format.h>

#include <array>
#include <optional>
#include <vector>

#include "notation/date_span.h"
#include "notation/edtf.h"

namespace sherd::notation {

namespace {

using Part = WrittenPart::Kind;

constexpr std::int64_t kMostYears = 9'999'999;
constexpr std::int64_t kMostCenturies = 99;
constexpr std::int64_t kLastWithC = 21;  ///< C22 would be read as circa 22

/// A century or a part of one.
struct Named {
  std::int64_t century = 1;
  Era era = Era::ad;
  std::optional<WrittenPart> part;
  YearSpan years;
};

/// In the order of preference: the whole century, early to late, halves, quarters.
std::vector<std::optional<WrittenPart>> all_parts() {
  std::vector<std::optional<WrittenPart>> out{std::nullopt};
  for (const auto& [kind, n] : {std::pair{Part::thirds, 3}, std::pair{Part::half, 2}, std::pair{Part::quarter, 4}}) {
    for (int which = 1; which <= n; ++which) out.push_back(WrittenPart{kind, which, which});
  }
  return out;
}

/// All that may hold a year.
std::vector<Named> around(std::int64_t year, const DateStyle& style) {
  static const std::vector<std::optional<WrittenPart>> kParts = all_parts();
  std::vector<Named> out;
  const Era era = year >= 1 ? Era::ad : Era::bc;
  const std::int64_t near = era == Era::ad ? (year + 99) / 100 : (100 - year) / 100;
  for (std::int64_t century = near - 1; century <= near + 1; ++century) {
    if (century < 1 || century > kMostCenturies) continue;
    for (const auto& part : kParts) out.push_back({century, era, part, century_span(century, era, part, style)});
  }
  return out;
}

std::string part_word(const WrittenPart& part) {
  constexpr std::array<std::string_view, 3> kThirds{"early", "mid", "late"};
  if (part.kind == Part::thirds) return std::string(kThirds[static_cast<std::size_t>(part.first - 1)]);
  return nth(part.first) + (part.kind == Part::half ? " half" : " quarter");
}

std::string text_of(const Named& one) {
  const std::string century =
      one.century <= kLastWithC ? fmt::format("C{}", one.century) : nth(one.century) + " century";
  return fmt::format("{}{}{}{}", one.part ? part_word(*one.part) : "", one.part ? " " : "", century,
                     one.era == Era::bc ? " BC" : "");
}

/// Two ends: in one century only early to mid and mid to late are said.
std::optional<std::string> text_of(const Named& first, const Named& last) {
  if (first.century == last.century && first.era == last.era) {
    const bool thirds = first.part && last.part && first.part->kind == Part::thirds && last.part->kind == Part::thirds;
    if (!thirds || first.part->first >= last.part->first) return std::nullopt;
    return fmt::format("{} to {}", part_word(*first.part), text_of(last));
  }
  return fmt::format("{}{}-{}{}", text_of(first), first.era == Era::bc ? "" : (last.era == Era::bc ? " AD" : ""),
                     text_of(last), first.era == Era::bc && last.era == Era::ad ? " AD" : "");
}

std::optional<std::string> by_centuries(const YearSpan& span, const DateStyle& style) {
  const std::vector<Named> starts = around(span.from, style);
  for (const Named& one : starts) {
    if (one.years == span) return text_of(one);
  }
  const std::vector<Named> ends = around(span.to, style);
  for (const Named& first : starts) {
    if (first.years.from != span.from || first.years.to > span.to) continue;
    for (const Named& last : ends) {
      if (last.years.to != span.to || last.years.from < span.from) continue;
      if (auto text = text_of(first, last)) return text;
    }
  }
  return std::nullopt;
}

std::optional<std::string> by_decade(const YearSpan& span) {
  const bool bc = span.to < 1;
  const std::int64_t year = bc ? -historical(Year{span.to}) : span.from;
  if (year < 100 || year % 10 != 0 || year % 100 == 0) return std::nullopt;
  if (decade_span(year, bc ? Era::bc : Era::ad) != span) return std::nullopt;
  return fmt::format("{}s{}", year, bc ? " BC" : "");
}

std::string one_year(Year year) { return (year.value >= 1 ? "AD " : "") + year_text(year); }

std::string by_years(const YearRange& range) {
  if (!range.latest) return one_year(*range.earliest) + " or later";
  if (!range.earliest) return one_year(*range.latest) + " or earlier";
  return (range.earliest->value >= 1 ? "AD " : "") + range_text(range);
}

bool is_sayable(const YearRange& range, const DateStyle& style) {
  const auto far = [](const std::optional<Year>& year) {
    return year && (historical(*year) > kMostYears || historical(*year) < -kMostYears);
  };
  return !far(range.earliest) && !far(range.latest) && !style.edtf && (range.closed() || !style.open_years);
}

}  // namespace

std::string date_text(const YearRange& range, const DateStyle& style, Certainty certainty) {
  if (range.empty() && !style.edtf) return "undated";
  if (!is_sayable(range, style)) return edtf_text(range, certainty);
  std::optional<std::string> text;
  if (range.closed()) {
    const YearSpan span{range.earliest->value, range.latest->value};
    text = by_centuries(span, style);
    if (!text) text = by_decade(span);
  }
  if (!text) text = by_years(range);
  if (certainty == Certainty::possible) return "poss. " + *text;
  return certainty == Certainty::probable ? *text + "?" : *text;
}

}  // namespace sherd::notation
