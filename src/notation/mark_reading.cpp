#include "notation/mark_reading.h"

#include <fmt/format.h>

#include <array>
#include <chrono>
#include <utility>

namespace sherd::notation {

std::string_view month_name(int month) {
  constexpr std::array<std::string_view, 12> kNames{"January",   "February", "March",    "April",
                                                    "May",       "June",     "July",     "August",
                                                    "September", "October",  "November", "December"};
  return kNames[static_cast<std::size_t>(month - 1)];
}

std::string cited_text(std::string_view source, Known known) {
  const bool says =
      source.find("from memory") != std::string_view::npos || source.find("no source") != std::string_view::npos;
  return says ? fmt::format("({})", source) : fmt::format("({}, {})", source, word(known));
}

void likely_first(std::vector<MarkAnswer>& answers) {
  const auto rank = [](const MarkAnswer& one) { return !one.ruled_out.empty() ? 2 : one.likely ? 0 : 1; };
  std::vector<MarkAnswer> out;
  for (int wanted = 0; wanted < 3; ++wanted) {
    for (const MarkAnswer& one : answers) {
      if (rank(one) == wanted) out.push_back(one);
    }
  }
  answers = std::move(out);
}

std::string day_text(const CalendarDay& day) {
  std::string out;
  if (day.day > 0) out += std::to_string(day.day) + " ";
  if (day.month > 0) out += std::string(month_name(day.month)) + " ";
  if (day.year > 0) return out + std::to_string(day.year);
  if (!out.empty()) out.pop_back();
  return out;
}

std::string iso_text(const CalendarDay& day) {
  if (day.year == 0 || day.month == 0 || day.day == 0) return {};
  return fmt::format("{:04}-{:02}-{:02}", day.year, day.month, day.day);
}

int days_of_month(int year, int month) {
  using namespace std::chrono;
  const year_month_day_last last{std::chrono::year{year},
                                 month_day_last{std::chrono::month{static_cast<unsigned>(month)}}};
  return static_cast<int>(static_cast<unsigned>(last.day()));
}

}  // namespace sherd::notation
