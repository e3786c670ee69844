#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>

namespace sherd {

/// A calendar year, astronomical: 1 is AD 1, 0 is 1 BC, -42 is 43 BC.
struct Year {
  std::int64_t value = 0;
  friend auto operator<=>(Year, Year) = default;
};

/// The historical number that other programs see: 43 BC is -43, and 0 never occurs.
constexpr std::int64_t historical(Year year) { return year.value >= 1 ? year.value : year.value - 1; }
/// From a historical number; 0 is taken as 1 BC.
constexpr Year from_historical(std::int64_t number) { return {number >= 0 ? number : number + 1}; }

/// "120", "43 BC"
std::string year_text(Year year);

/// Years inclusive at both ends; an end that is not there is open.
struct YearRange {
  std::optional<Year> earliest;
  std::optional<Year> latest;

  bool empty() const { return !earliest && !latest; }
  bool closed() const { return earliest && latest; }
  friend bool operator==(const YearRange&, const YearRange&) = default;
};

/// "120-250", "50 BC-AD 70", "100-40 BC", "270 or later", "410 or earlier", "undated".
std::string range_text(const YearRange& range);

}  // namespace sherd
