#include "model/year.h"

namespace sherd {

std::string year_text(Year year) {
  const std::int64_t number = historical(year);
  return number > 0 ? std::to_string(number) : std::to_string(-number) + " BC";
}

std::string range_text(const YearRange& range) {
  if (range.empty()) return "undated";
  if (!range.latest) return year_text(*range.earliest) + " or later";
  if (!range.earliest) return year_text(*range.latest) + " or earlier";
  if (range.earliest == range.latest) return year_text(*range.earliest);
  const bool both_before_christ = historical(*range.latest) < 0;
  if (both_before_christ) return std::to_string(-historical(*range.earliest)) + "-" + year_text(*range.latest);
  const std::string latest = year_text(*range.latest);
  return year_text(*range.earliest) + "-" + (historical(*range.earliest) < 0 ? "AD " + latest : latest);
}

}  // namespace sherd
