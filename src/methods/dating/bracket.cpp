#include "methods/dating/bracket.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <limits>
#include <map>
#include <utility>
#include <vector>

#include "methods/dating/vessel_units.h"

namespace sherd::dating {

namespace {

constexpr std::int64_t kOpenFrom = std::numeric_limits<std::int64_t>::min();
constexpr std::int64_t kOpenTo = std::numeric_limits<std::int64_t>::max();
constexpr std::array<double, 3> kShares{1.0, 0.9, 0.75};

/// Years from..to inclusive, and vessels.
struct Span {
  std::int64_t from = 0, to = 0, vessels = 0;
};

YearsOfMaking shown(const Span& span) {
  YearsOfMaking out{.vessels = span.vessels};
  if (span.from != kOpenFrom) out.earliest = Year{span.from};
  if (span.to != kOpenTo) out.latest = Year{span.to};
  return out;
}

std::string text_of(const YearsOfMaking& years) { return range_text({years.earliest, years.latest}); }

/// Vessels of the same range as one, by their start.
std::vector<Span> ranges_of(const std::vector<VesselUnit>& units) {
  std::map<std::pair<std::int64_t, std::int64_t>, std::int64_t> sums;
  for (const VesselUnit& unit : units) sums[{unit.from, unit.to}] += unit.vessels;
  std::vector<Span> out;
  for (const auto& [range, vessels] : sums) out.push_back({range.first, range.second, vessels});
  return out;
}

/// How many could have been made in each year, in steps; neighbouring steps differ, and none has no vessels.
std::vector<Span> steps_of(const std::vector<Span>& ranges) {
  std::map<std::int64_t, std::int64_t> change;
  for (const Span& range : ranges) {
    change[range.from] += range.vessels;
    if (range.to != kOpenTo) change[range.to + 1] -= range.vessels;
  }
  std::erase_if(change, [](const auto& at) { return at.second == 0; });
  std::vector<Span> out;
  std::int64_t vessels = 0;
  for (auto at = change.begin(); at != change.end(); ++at) {
    vessels += at->second;
    if (vessels == 0) continue;
    const auto next = std::next(at);
    out.push_back({at->first, next == change.end() ? kOpenTo : next->first - 1, vessels});
  }
  return out;
}

/// Neighbouring steps that hold `needed` or more, as runs with the fewest that any of their years holds.
std::vector<Span> years_that_hold(const std::vector<Span>& steps, std::int64_t needed) {
  std::vector<Span> out;
  for (const Span& step : steps) {
    if (step.vessels < needed) continue;
    if (!out.empty() && out.back().to != kOpenTo && out.back().to + 1 == step.from) {
      out.back().to = step.to;
      out.back().vessels = std::min(out.back().vessels, step.vessels);
    } else {
      out.push_back(step);
    }
  }
  return out;
}

/// The shortest spans that touch `needed` vessels or more, where no year holds so many: each begins where a range ends
/// and ends where one begins.
std::vector<Span> shortest_spans(const std::vector<Span>& ranges, std::int64_t needed) {
  std::vector<std::int64_t> ends;
  for (const Span& range : ranges) {
    if (range.to != kOpenTo) ends.push_back(range.to);
  }
  std::sort(ends.begin(), ends.end());
  ends.erase(std::unique(ends.begin(), ends.end()), ends.end());
  std::vector<Span> out;
  std::int64_t length = kOpenTo;
  for (const std::int64_t from : ends) {
    Span span{from, from, 0};
    std::size_t i = 0;
    while (i < ranges.size() && (ranges[i].from <= from || span.vessels < needed)) {
      if (ranges[i].to >= from) {
        span.vessels += ranges[i].vessels;
        span.to = std::max(span.to, ranges[i].from);
      }
      ++i;
    }
    if (span.vessels < needed || span.to - span.from > length) continue;
    for (; i < ranges.size() && ranges[i].from <= span.to; ++i) span.vessels += ranges[i].vessels;
    if (span.to - span.from < length) out.clear();
    length = span.to - span.from;
    out.push_back(span);
  }
  return out;
}

BracketLevel level_of(double share, std::int64_t vessels, const std::vector<Span>& ranges,
                      const std::vector<Span>& steps) {
  BracketLevel level{.share = share};
  constexpr double kSlack = 1e-9;  // 0.9 of 10 vessels are 9
  level.needed = static_cast<std::int64_t>(std::ceil(share * static_cast<double>(vessels) - kSlack));
  std::vector<Span> spans = years_that_hold(steps, level.needed);
  level.side_by_side = !spans.empty();
  if (spans.empty()) spans = shortest_spans(ranges, level.needed);
  for (const Span& span : spans) level.years.push_back(shown(span));
  return level;
}

std::string because_of(const Bracket& bracket) {
  const BracketLevel& all = bracket.levels.front();
  if (bracket.vessels == 1) return "one dated vessel, made in " + text_of(all.years.front());
  if (all.side_by_side)
    return fmt::format("all {} dated vessels could have been made in {}", bracket.vessels, text_of(all.years.front()));
  const auto most = std::ranges::max_element(bracket.steps, {}, &YearsOfMaking::vessels);
  return fmt::format("no year holds all {} dated vessels; {} of them could have been made in {}; {} touches all",
                     bracket.vessels, most->vessels, text_of(*most), text_of(all.years.front()));
}

std::string beside(const BracketLevel& all, std::optional<Year> terminus) {
  if (!terminus || all.years.empty()) return {};
  const std::string name = "the terminus " + year_text(*terminus);
  const YearsOfMaking& years = all.years.front();
  if (all.side_by_side) {
    if (years.earliest && *terminus < *years.earliest)
      return name + " is before the years in which all were made: part of the pottery is later than the context";
    if (years.latest && *years.latest < *terminus)
      return name + " is after the last year in which all were made (" + year_text(*years.latest) +
             "): part was old or redeposited by then";
    return name + " is within the years in which all were made";
  }
  const Year first_over = *years.earliest;
  if (*terminus <= first_over) return name + " is before any of them went out of making";
  return fmt::format("{} is {} years after the first of them went out of making ({}): old by then, or redeposited",
                     name, terminus->value - first_over.value, year_text(first_over));
}

}  // namespace

std::optional<Bracket> bracket_of(std::span<const DatedLine> lines, std::optional<Year> terminus) {
  const auto among = lines_where(lines, [](const DatedLine& line) {
    return line.judged != Judgement::residual && line.judged != Judgement::intrusive;
  });
  const std::vector<Span> ranges = ranges_of(dated_vessels(lines, among));
  if (ranges.empty()) return std::nullopt;
  const std::vector<Span> steps = steps_of(ranges);
  Bracket out;
  for (const Span& range : ranges) out.vessels += range.vessels;
  for (const Span& step : steps) out.steps.push_back(shown(step));
  for (const double share : kShares) out.levels.push_back(level_of(share, out.vessels, ranges, steps));
  out.because = because_of(out);
  out.beside_terminus = beside(out.levels.front(), terminus);
  return out;
}

}  // namespace sherd::dating
