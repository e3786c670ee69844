// Where drawing begins: near what is likely, in order.
#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "methods/stratigraphy/schedule_order.h"

namespace sherd::stratigraphy {

Order order_of(const Problem& problem, const Boundaries& boundaries) {
  const std::size_t units = problem.tables.size();
  const std::size_t all = units + boundaries.all.size();
  Order out{std::vector<std::vector<std::size_t>>(all), std::vector<std::vector<std::size_t>>(all), {}};
  const auto add = [&](std::size_t earlier, std::size_t later) {
    out.below[later].push_back(earlier);
    out.above[earlier].push_back(later);
  };
  for (std::size_t u = 0; u < units; ++u) {
    for (const std::uint32_t earlier : problem.below[u]) add(earlier, u);
  }
  for (std::size_t s = 0; s < problem.stretches.size(); ++s) {
    for (const std::uint32_t u : problem.stretches[s].units) {
      add(units + boundaries.alpha[s], u);
      add(u, units + boundaries.beta[s]);
    }
  }
  for (std::size_t b = 0; b < boundaries.all.size(); ++b) {
    for (const std::size_t before : boundaries.all[b].before) add(units + before, units + b);
  }
  std::vector<std::size_t> waiting(all);
  for (std::size_t i = 0; i < all; ++i) {
    waiting[i] = out.below[i].size();
    if (waiting[i] == 0) out.earliest_first.push_back(i);
  }
  for (std::size_t i = 0; i < out.earliest_first.size(); ++i) {
    for (const std::size_t later : out.above[out.earliest_first[i]]) {
      if (--waiting[later] == 0) out.earliest_first.push_back(later);
    }
  }
  return out;
}

namespace {

/// Rounds of pushing apart what is out of order, and by how little it may be so at last, in years.
constexpr int kMostRounds = 4000;
constexpr double kNearEnough = 0.25;
/// Of a boundary against a date that is known to a year: it goes where the others let it.
constexpr double kLight = 1e-6;

struct Place {
  double year = 0, weight = kLight;
  double open = 0;  ///< the shortest time for which it was open
};

/// The year by which a unit was complete with the chance `quantile`, weighted by how well its table knows.
Place place_of(const Table& table, double quantile) {
  std::vector<double> years(table.like.front().size(), 0);
  double all = 0;
  double mean = 0;
  double squares = 0;
  for (const auto& row : table.like) {
    for (std::size_t t = 0; t < row.size(); ++t) {
      const auto year = static_cast<double>(t);
      years[t] += row[t];
      all += row[t];
      mean += row[t] * year;
      squares += row[t] * year * year;
    }
  }
  Place out;
  out.open = static_cast<double>(*std::ranges::min_element(table.durations));
  if (!(all > 0)) return out;
  mean /= all;
  out.weight = 1 / (1 + std::max(0.0, squares / all - mean * mean));
  double upto = 0;
  for (std::size_t t = 0; t < years.size() && upto < quantile * all; ++t) {
    upto += years[t];
    out.year = static_cast<double>(t);
  }
  return out;
}

/// Pushes two apart that are out of order, the better known one less; by how much they were.
double push(Place& earlier, Place& later) {
  const double wrong = earlier.year - (later.year - later.open);
  if (wrong <= 0) return 0;
  const double share = later.weight / (earlier.weight + later.weight);
  earlier.year -= wrong * share;
  later.year += wrong * (1 - share);
  return wrong;
}

void put_in_order(const Order& order, std::vector<Place>& places) {
  for (int round = 0; round < kMostRounds; ++round) {
    double worst = 0;
    const auto each = [&](std::size_t at) {
      for (const std::size_t below : order.below[at]) worst = std::max(worst, push(places[below], places[at]));
    };
    if (round % 2 == 0) {
      for (const std::size_t at : order.earliest_first) each(at);
    } else {
      for (auto at = order.earliest_first.rbegin(); at != order.earliest_first.rend(); ++at) each(*at);
    }
    if (worst < kNearEnough) return;
  }
}

/// Whole years that keep to the order, none of them outside what the earliest and latest schedules leave; nothing where
/// a table does not allow its year.
std::optional<Schedule> rounded(const Problem& problem, const Boundaries& boundaries, const Order& order,
                                const std::vector<Place>& places, const Schedule& earliest, const Schedule& latest) {
  const std::size_t units = problem.tables.size();
  Schedule out{std::vector<std::int64_t>(units), std::vector<std::uint32_t>(units),
               std::vector<std::int64_t>(boundaries.all.size())};
  std::vector<std::int64_t> end(places.size(), 0);
  for (const std::size_t at : order.earliest_first) {
    std::int64_t from = 0;
    for (const std::size_t below : order.below[at]) from = std::max(from, end[below]);
    auto year = static_cast<std::int64_t>(std::llround(places[at].year));
    if (at >= units) {
      const std::size_t k = at - units;
      end[at] = out.boundary[k] = std::max(from, std::clamp(year, earliest.boundary[k], latest.boundary[k]));
      if (end[at] > latest.boundary[k]) return std::nullopt;
      continue;
    }
    const Table& table = problem.tables[at];
    const auto shortest = std::ranges::min_element(table.durations);
    const auto d = static_cast<std::size_t>(shortest - table.durations.begin());
    year = std::max(from + *shortest, std::clamp(year, earliest.completed[at], latest.completed[at]));
    if (year >= static_cast<std::int64_t>(problem.years) || table.like[d][static_cast<std::size_t>(year)] <= 0)
      return std::nullopt;
    end[at] = out.completed[at] = year;
    out.duration[at] = static_cast<std::uint32_t>(d);
  }
  return out;
}

}  // namespace

std::optional<Schedule> likely_schedule(const Problem& problem, const Boundaries& boundaries, const Schedule& earliest,
                                        const Schedule& latest, double quantile) {
  const Order order = order_of(problem, boundaries);
  const std::size_t units = problem.tables.size();
  std::vector<Place> places;
  for (const Table& table : problem.tables) places.push_back(place_of(table, quantile));
  for (std::size_t k = 0; k < boundaries.all.size(); ++k) {
    Place one;
    double n = 0;
    for (const auto* near : {&order.below[units + k], &order.above[units + k]}) {
      for (const std::size_t unit : *near) {
        if (unit >= units) continue;
        one.year += places[unit].year;
        ++n;
      }
    }
    one.year /= std::max(1.0, n);
    places.push_back(one);
  }
  put_in_order(order, places);
  return rounded(problem, boundaries, order, places, earliest, latest);
}

}  // namespace sherd::stratigraphy
