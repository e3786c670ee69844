#include "desk/recording/work_pace.h"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <map>

namespace sherd::desk {

namespace {

constexpr std::int64_t kPause = 15 * 60;  ///< seconds without a change after which no one is at work any more
constexpr std::int64_t kBefore = 60;      ///< seconds of work before the first change of a stretch
constexpr std::int64_t kDaySeconds = 24 * 60 * 60;

/// A change that someone made by hand; what programs read in says nothing of a pace.
bool by_hand(const ChangeAuthor& author) {
  for (const std::string_view word : {"import", "new ", "merge", "demo", "undo", "spot-dates", "report", "volunteer"}) {
    if (author.command.starts_with(word)) return false;
  }
  return true;
}

struct Moment {
  std::int64_t at = 0, seq = 0;
  std::string day;
};

}  // namespace

std::optional<std::int64_t> seconds_of_time(std::string_view at) {
  const auto number = [&](std::size_t from, std::size_t length) {
    int value = -1;
    std::from_chars(at.data() + from, at.data() + from + length, value);
    return value;
  };
  if (at.size() < 19 || at[4] != '-' || at[10] != 'T') return std::nullopt;
  const std::chrono::year_month_day day{std::chrono::year(number(0, 4)),
                                        std::chrono::month(static_cast<unsigned>(number(5, 2))),
                                        std::chrono::day(static_cast<unsigned>(number(8, 2)))};
  if (!day.ok()) return std::nullopt;
  const std::int64_t days = std::chrono::sys_days(day).time_since_epoch().count();
  return days * kDaySeconds + number(11, 2) * 3600 + number(14, 2) * 60 + number(17, 2);
}

std::vector<WorkDay> work_days(const LinesInShort& lines, const std::string& who, std::int64_t from) {
  std::map<std::string, std::vector<Moment>> of_person;
  for (const auto& [seq, author] : lines.authors) {
    if (!by_hand(author) || (!who.empty() && author.who != who)) continue;
    const auto at = seconds_of_time(author.at);
    if (at && *at >= from) of_person[author.who].push_back({*at, seq, author.at.substr(0, 10)});
  }
  std::vector<WorkDay> out;
  for (auto& [person, moments] : of_person) {
    std::ranges::sort(moments, [](const Moment& a, const Moment& b) { return a.at < b.at; });
    std::map<std::string, WorkDay> days;
    for (std::size_t i = 0; i < moments.size(); ++i) {
      const std::int64_t since = i == 0 ? kPause + 1 : moments[i].at - moments[i - 1].at;
      WorkDay& day = days[moments[i].day];
      day.hours += static_cast<double>(since > kPause ? kBefore : since) / 3600;
      day.changes.insert(moments[i].seq);
    }
    for (auto& [name, day] : days) {
      day.who = person;
      day.day = name;
      out.push_back(std::move(day));
    }
  }
  return out;
}

}  // namespace sherd::desk
