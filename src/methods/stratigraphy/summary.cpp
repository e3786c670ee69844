#include "methods/stratigraphy/summary.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "methods/dating/density.h"

namespace sherd::stratigraphy {

namespace {

constexpr double kLeastShown = 0.001;

std::vector<std::vector<Year>> ranges_of(const dating::YearDensity& density, double mass) {
  std::vector<std::vector<Year>> out;
  for (const YearRange& range : dating::shortest(density, mass)) out.push_back({*range.earliest, *range.latest});
  return out;
}

std::vector<dating::Bin> decades_of(const YearChances& chances, Years years) {
  std::vector<dating::Bin> out;
  for (std::int64_t year = years.first; year <= years.last;) {
    const std::int64_t within = ((year % 10) + 10) % 10;
    const std::int64_t last = std::min(years.last, year + 9 - within);
    dating::Bin bin{{year}, {last}, 0};
    for (; year <= last; ++year) bin.value += chances[static_cast<std::size_t>(year - years.first)];
    if (bin.value >= kLeastShown) out.push_back(bin);
  }
  return out;
}

}  // namespace

YearChances completed_chances(const Cells& states) {
  YearChances out(states.front().size(), 0);
  for (const auto& row : states) {
    for (std::size_t t = 0; t < row.size(); ++t) out[t] += row[t];
  }
  return out;
}

YearChances began_chances(const Cells& states, const std::vector<std::int64_t>& durations) {
  YearChances out(states.front().size(), 0);
  for (std::size_t d = 0; d < states.size(); ++d) {
    const auto open = static_cast<std::size_t>(durations[d]);
    for (std::size_t t = 0; t < states[d].size(); ++t) out[t > open ? t - open : 0] += states[d][t];
  }
  return out;
}

Cells chances_of(const Cells& log_like) {
  double most = -std::numeric_limits<double>::infinity();
  for (const auto& row : log_like) most = std::max(most, *std::ranges::max_element(row));
  Cells out = log_like;
  double sum = 0;
  for (auto& row : out) {
    for (double& value : row) sum += value = std::isfinite(most) ? std::exp(value - most) : 0;
  }
  for (auto& row : out) {
    for (double& value : row) value = sum > 0 ? value / sum : 0;
  }
  return out;
}

std::int64_t median_of(const YearChances& chances, Years years) {
  const double half = std::accumulate(chances.begin(), chances.end(), 0.0) / 2;
  double sum = 0;
  for (std::size_t i = 0; i < chances.size(); ++i) {
    sum += chances[i];
    if (sum >= half) return years.first + static_cast<std::int64_t>(i);
  }
  return years.last;
}

DateSummary summary_of(const YearChances& chances, Years years) {
  const dating::YearDensity density{{years.first}, chances};
  return {.median = Year{median_of(chances, years)},
          .range68 = ranges_of(density, 0.68),
          .range95 = ranges_of(density, 0.95),
          .density = decades_of(chances, years)};
}

std::vector<std::int64_t> shortest_of(const std::vector<std::int64_t>& ascending, double mass) {
  const std::size_t n = ascending.size();
  const auto held = std::clamp<std::size_t>(static_cast<std::size_t>(std::ceil(mass * static_cast<double>(n))), 1, n);
  std::size_t best = 0;
  for (std::size_t i = 0; i + held <= n; ++i) {
    if (ascending[i + held - 1] - ascending[i] < ascending[best + held - 1] - ascending[best]) best = i;
  }
  return {ascending[best], ascending[best + held - 1]};
}

DateSummary summary_of_draws(std::vector<std::int64_t> values, Years years) {
  std::ranges::sort(values);
  YearChances chances(years.size(), 0);
  for (const std::int64_t value : values)
    chances[static_cast<std::size_t>(value - years.first)] += 1 / static_cast<double>(values.size());
  const auto range = [&](double mass) {
    const auto ends = shortest_of(values, mass);
    return std::vector<std::vector<Year>>{{{ends[0]}, {ends[1]}}};
  };
  return {.median = Year{values[(values.size() - 1) / 2]},
          .range68 = range(0.68),
          .range95 = range(0.95),
          .density = decades_of(chances, years)};
}

double overlap(const YearChances& a, const YearChances& b) {
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += std::min(a[i], b[i]);
  return std::min(1.0, sum);
}

Year rounded(Year year, std::int64_t step, bool up) {
  const std::int64_t number = historical(year);
  const std::int64_t size = std::abs(number);
  const bool away = (number > 0) == up;  // from the year 0 that there is not
  const std::int64_t rounded_size = away ? (size + step - 1) / step * step : size / step * step;
  if (rounded_size == 0) return from_historical(number > 0 ? 1 : -1);
  return from_historical(number > 0 ? rounded_size : -rounded_size);
}

std::string rounded_text(const std::vector<std::vector<Year>>& ranges, double coarse_from) {
  if (ranges.empty()) return {};
  const auto width = static_cast<double>(ranges.back()[1].value - ranges.front()[0].value);
  const std::int64_t step = width >= coarse_from ? 10 : 5;
  std::vector<std::vector<Year>> joined;
  for (const auto& range : ranges) {
    const Year from = rounded(range[0], step, false);
    const Year to = rounded(range[1], step, true);
    if (!joined.empty() && from <= joined.back()[1]) {
      joined.back()[1] = to;
    } else {
      joined.push_back({from, to});
    }
  }
  std::string out;
  for (const auto& range : joined) {
    if (!out.empty()) out += " or ";
    out += range_text({range[0], range[1]});
  }
  return out;
}

}  // namespace sherd::stratigraphy
