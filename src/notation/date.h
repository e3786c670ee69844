#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "model/period.h"
#include "model/words.h"
#include "model/year.h"
#include "notation/date_style.h"

namespace sherd::notation {

class PeriodIndex;

/// What kind of years a date speaks of.
enum class DateKind {
  calendar,
  calibrated,       ///< the calibrated span of a radiocarbon age
  uncalibrated,     ///< a radiocarbon age as bc or ad in small letters, or named uncalibrated
  radiocarbon_age,  ///< years BP
};

/// "calendar", "calibrated", "uncalibrated", "radiocarbon age"
std::string_view date_kind_text(DateKind kind);

/// A radiocarbon age in years before 1950, not calibrated; both ends equal for a single one.
struct RadiocarbonAge {
  std::int64_t older = 0;
  std::int64_t younger = 0;
  std::optional<std::int64_t> sd;  ///< one standard deviation, years

  friend bool operator==(const RadiocarbonAge&, const RadiocarbonAge&) = default;
};

/// A written date in years.
struct DateReading {
  YearRange range;  ///< empty: the text says that there is no date, or `age` holds what it says
  Certainty certainty = Certainty::sure;
  bool circa = false;
  std::string style;                 ///< the name of the style it was read by
  std::vector<std::string> because;  ///< what each part of the text was taken for
  std::vector<std::string> warnings;
  DateKind kind = DateKind::calendar;
  std::optional<double> probability;  ///< of a calibrated span, 0 to 1
  std::optional<RadiocarbonAge> age;
  std::string lab;                ///< the laboratory's number, as written
  std::string period_authority;   ///< whose years of a period, reign or house were taken
  std::vector<YearRange> either;  ///< one or the other, and nothing between; `range` spans them all
  std::string edtf;               ///< the same in EDTF; empty where there are no calendar years
};

/// Reads a date as specialists write it: years, ranges, centuries and their parts, decades, BC and AD, circa, open
/// ends, doubt, calibrated spans, EDTF. The notations are listed in docs/methods/date-notation.md. It is for cells that
/// must hold years: a radiocarbon age, which has none, is an error, and so is the name of a period. Error
/// `unreadable_date`: the message's first line shows the text, its second a caret under the place.
Result<DateReading> read_date(std::string_view text, const DateStyle& style = default_date_style());

struct DateSettings {
  DateStyle style = default_date_style();   ///< whose way of writing dates: centuries, thirds, quarters
  std::string authority;                    ///< whose periods; blank: the first of the table that has any
  bool slash_is_either = false;             ///< 120/140 is one year or the other; else the range
  bool small_letters_uncalibrated = false;  ///< 350 bc is a radiocarbon age; else 350 BC, with a warning
};

/// Reads dates as `read_date` does, and names of periods, reigns and houses from a table, and radiocarbon ages.
class DateReader {
 public:
  /// Error `unknown_period_authority` with the nearest name.
  static Result<DateReader> with(PeriodTable periods, DateSettings settings = {});

  Result<DateReading> read(std::string_view text) const;

 private:
  DateReader(DateSettings settings, std::shared_ptr<const PeriodIndex> periods);

  DateSettings settings_;
  std::shared_ptr<const PeriodIndex> periods_;
};

}  // namespace sherd::notation
