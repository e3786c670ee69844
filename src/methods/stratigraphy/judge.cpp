#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "methods/stratigraphy/unit_date.h"

namespace sherd::stratigraphy {

namespace {

/// The latest end of what is held to be of the context's own time, else of what is not held to be intrusive.
std::optional<Year> latest_own(const ContextDate& date, double own_above) {
  std::optional<Year> own;
  std::optional<Year> any;
  for (const GroupDate& group : date.groups) {
    if (group.own && *group.own > own_above) own = own ? std::max(*own, *group.latest) : *group.latest;
    if (group.intrusive && *group.intrusive <= own_above) any = any ? std::max(*any, *group.latest) : *group.latest;
  }
  return own ? own : any;
}

bool has_own(const ContextDate& date, double own_above) {
  return std::ranges::any_of(date.groups, [&](const GroupDate& group) { return group.own && *group.own > own_above; });
}

double chance_after(const YearChances& chances, Years years, Year year) {
  double sum = 0;
  for (std::int64_t y = std::max(years.first, year.value + 1); y <= years.last; ++y)
    sum += chances[static_cast<std::size_t>(y - years.first)];
  return std::min(1.0, sum);
}

std::string percent(double share) { return fmt::format("{:.0f} %", 100 * share); }

void print_or_later(ContextDate& date, const YearChances& completed, Years years, const SequenceSettings& settings) {
  const std::optional<Year> latest = latest_own(date, settings.own_above);
  if (!latest) return;
  const Year limit{latest->value + static_cast<std::int64_t>(settings.or_later_after)};
  if (date.completed.range95.back()[1] <= limit) return;
  date.or_later_from = limit;
  date.or_later = chance_after(completed, years, limit);
  const auto& range = date.completed.range95.front();
  date.printed = range_text({rounded(range[0], 5, false), std::nullopt});
  date.flags.push_back(
      {"or_later",
       fmt::format("no end is printed: after {} its pottery says nothing ({} of the chance lies there; "
                   "the window ends in {})",
                   year_text(limit), percent(*date.or_later), year_text({years.last})),
       {}});
}

void flag_terminus(ContextDate& date, const std::vector<VesselKind>& kinds) {
  const Year end = date.completed.range95.back()[1];
  if (!date.terminus || end >= *date.terminus) return;
  DateFlag flag{"before_own_terminus", {}, {}};
  std::vector<std::string> names;
  for (const VesselKind& kind : kinds) {
    if (kind.vessels <= 0 || kind.judged == Judgement::intrusive || kind.earliest <= end) continue;
    flag.records.insert(flag.records.end(), kind.records.begin(), kind.records.end());
    names.push_back(
        fmt::format("{}{}{}", kind.name, kind.name.empty() ? "" : " ", range_text({kind.earliest, kind.latest})));
  }
  flag.message = fmt::format("dated before its own terminus {}: held to be intrusive: {}", year_text(*date.terminus),
                             fmt::join(names, ", "));
  date.flags.push_back(std::move(flag));
}

}  // namespace

void judge(ContextDate& date, const YearChances& completed, const std::vector<VesselKind>& kinds, Years years,
           const SequenceSettings& settings) {
  date.printed = rounded_text(date.completed.range95, settings.coarse_from);
  const auto add = [&](std::string code, std::string message) {
    date.flags.push_back({std::move(code), std::move(message), {}});
  };
  if (kinds.empty()) {
    add("no_pottery", "no dated pottery of its own: dated by the sequence alone");
    if (date.deposit == Deposit::make_up) {
      date.printed = "after " + year_text(rounded(date.completed.range95.front()[0], 5, false));
      date.completed.median.reset();
    }
    return;
  }
  print_or_later(date, completed, years, settings);
  flag_terminus(date, kinds);
  if (date.deposit == Deposit::make_up && !has_own(date, settings.own_above)) {
    date.printed = "after " + year_text(rounded(date.completed.range95.front()[0], 5, false));
    date.completed.median.reset();
    add("after_only", "made-up ground without pottery that is probably of its own time: only a date after which");
  }
  const auto width =
      static_cast<double>(date.completed.range95.back()[1].value - date.completed.range95.front()[0].value);
  if (date.vessels < settings.few_vessels && width > settings.wide_years)
    add("terminus_only",
        fmt::format("{} vessels and a range of {:.0f} years: no more than a terminus", date.vessels, width));
  if (date.strain && *date.strain < settings.conflict_below) {
    add("conflict",
        fmt::format("its own pottery and its place in the sequence are at odds (overlap {:.3f}): a mixed bag, a wrong "
                    "relation, or pottery that came in later",
                    *date.strain));
  }
}

}  // namespace sherd::stratigraphy
