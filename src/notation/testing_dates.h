#pragma once

#include <gtest/gtest.h>

#include <cstdint>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

#include "base/csv.h"
#include "notation/date.h"
#include "notation/period.h"

/// For unit tests only.
namespace sherd::notation {

constexpr std::optional<std::int64_t> kOpenEnd;

/// Text and the historical years it stands for.
struct DateCase {
  std::string text;
  std::optional<std::int64_t> earliest, latest;
};

inline std::optional<std::int64_t> historical_year(const std::optional<Year>& year) {
  return year ? std::optional(historical(*year)) : std::nullopt;
}

template <class Read>
void expect_dates(const std::vector<DateCase>& cases, const Read& read) {
  for (const DateCase& one : cases) {
    const auto reading = read(one.text);
    ASSERT_TRUE(reading) << one.text << "\n" << reading.error().message;
    EXPECT_EQ(historical_year(reading->range.earliest), one.earliest) << one.text;
    EXPECT_EQ(historical_year(reading->range.latest), one.latest) << one.text;
  }
}

inline PeriodTable shipped_table(const std::string& name) {
  std::ifstream file(std::string(SHERD_SOURCE_DIR "/data/reference/") + name);
  std::stringstream text;
  text << file.rdbuf();
  return *period_table(*parse_csv(text.str()));
}

inline PeriodTable shipped_periods() { return joined(shipped_table("periods.csv"), shipped_table("reigns.csv")); }

inline DateReader shipped_reader(DateSettings settings = {}) {
  return *DateReader::with(shipped_periods(), std::move(settings));
}

}  // namespace sherd::notation
