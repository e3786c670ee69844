#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/mark_tables.h"
#include "model/words.h"
#include "model/year.h"

namespace sherd::notation {

/// One thing a mark may mean.
struct MarkAnswer {
  std::string mark;  ///< the words of the text that it reads
  std::string reads;
  YearRange range;
  std::optional<CalendarDay> on;  ///< the day of a registration, where month and day were read
  MarkDates dates = MarkDates::vessel;
  Nature nature = Nature::limit;
  std::string source;
  Known known = Known::read;
  bool likely = true;     ///< false: another source, or known pieces outside the rule
  std::string ruled_out;  ///< why it can not be; empty where it can
};

/// A mark explained.
struct MarkReading {
  std::string reads;
  YearRange range;  ///< of the likely answers; several marks in one text narrow each other; empty where they conflict
  Certainty certainty = Certainty::sure;
  std::vector<MarkAnswer> answers;  ///< likely first, those ruled out last
  std::vector<std::string> because;
  std::vector<std::string> not_said;  ///< what the mark does not say
  std::vector<std::string> warnings;
};

/// "(kovels.com, Nippon, read)"; the source alone where it says itself how it is known.
std::string cited_text(std::string_view source, Known known);
/// Likely answers before the others, those that are ruled out last; else as they stood.
void likely_first(std::vector<MarkAnswer>& answers);

/// "18 February 1862", "February 1862", "1862": as far as it is known.
std::string day_text(const CalendarDay& day);
/// "1862-02-18"; "" where month or day is not known.
std::string iso_text(const CalendarDay& day);
/// Days of a month of the Gregorian calendar.
int days_of_month(int year, int month);
/// The name of a month, 1..12.
std::string_view month_name(int month);

}  // namespace sherd::notation
