#include "notation/date_span.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace sherd::notation {

namespace {

using Part = WrittenPart::Kind;

/// The first century or millennium stops short where the year 0 would be.
YearSpan without_year_nought(YearSpan span, Era era) {
  if (era == Era::bc) span.to = std::min<std::int64_t>(span.to, 0);
  if (era == Era::ad) span.from = std::max<std::int64_t>(span.from, 1);
  return span;
}

}  // namespace

YearRange range_of(const YearSpan& span) {
  YearRange out;
  if (span.from > kAlways) out.earliest = Year{span.from};
  if (span.to < kForEver) out.latest = Year{span.to};
  return out;
}

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

YearSpan century_span(std::int64_t century, Era era, const std::optional<WrittenPart>& part, const DateStyle& style) {
  const CenturyPart years = part ? positions(*part, style) : CenturyPart{};
  // A style that begins its centuries in 200 rather than 201 begins those before Christ in 199 rather than 200.
  const std::int64_t first = era == Era::bc ? -100 * century + 1 + (style.century_starts == -100 ? 1 : 0)
                                            : 100 * century + style.century_starts;
  return without_year_nought({first + years.first - 1, first + years.last - 1}, era);
}

YearSpan millennium_span(std::int64_t millennium, Era era, const std::optional<WrittenPart>& part) {
  const CenturyPart years = part ? positions(*part, default_date_style()) : CenturyPart{};
  const std::int64_t first = era == Era::bc ? -1000 * millennium + 1 : 1000 * millennium - 999;
  return {first + 10 * (years.first - 1), first + 10 * years.last - 1};
}

YearSpan decade_span(std::int64_t year, Era era) {
  if (era == Era::ad) return {year, year + 9};
  return {from_historical(-year - 9).value, from_historical(-year).value};
}

}  // namespace sherd::notation
