#pragma once

#include <cstdint>
#include <limits>
#include <string>

#include "model/year.h"
#include "notation/date_parser.h"
#include "notation/date_style.h"

namespace sherd::notation {

/// Years inclusive, astronomical.
struct YearSpan {
  std::int64_t from = 0;
  std::int64_t to = 0;

  friend bool operator==(const YearSpan&, const YearSpan&) = default;
};

/// An end that is not there, in a span.
constexpr std::int64_t kAlways = std::numeric_limits<std::int64_t>::min() / 4;
constexpr std::int64_t kForEver = std::numeric_limits<std::int64_t>::max() / 4;

YearRange range_of(const YearSpan& span);

/// The years of a part of a century by a style; counted from its first, 1 to 100.
CenturyPart positions(const WrittenPart& part, const DateStyle& style);
/// A century (1: the first) or a part of it.
YearSpan century_span(std::int64_t century, Era era, const std::optional<WrittenPart>& part, const DateStyle& style);
/// A thousand years (1: the first), or a half or a quarter of them.
YearSpan millennium_span(std::int64_t millennium, Era era, const std::optional<WrittenPart>& part);
/// Ten years of which `year` is the one that ends in 0.
YearSpan decade_span(std::int64_t year, Era era);

/// "early", "mid to late", "3rd quarter of the"
std::string part_text(const WrittenPart& part);
/// "1st"
std::string nth(std::int64_t n);

}  // namespace sherd::notation
