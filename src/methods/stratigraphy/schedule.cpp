#include <algorithm>
#include <cmath>
#include <expected>
#include <optional>

#include "methods/stratigraphy/schedule_order.h"

namespace sherd::stratigraphy {

namespace {

/// The state of a table with the earliest completion that begins in `from` or later.
std::optional<std::pair<std::int64_t, std::uint32_t>> earliest_state(const Table& table, std::int64_t from,
                                                                     std::size_t years) {
  std::optional<std::pair<std::int64_t, std::uint32_t>> best;
  for (std::uint32_t d = 0; d < table.durations.size(); ++d) {
    for (std::int64_t t = from + table.durations[d]; t < static_cast<std::int64_t>(years); ++t) {
      if (best && t >= best->first) break;
      if (table.like[d][static_cast<std::size_t>(t)] > 0) best = {t, d};
    }
  }
  return best;
}

/// The state with the latest beginning that is complete in `to` or earlier.
std::pair<std::int64_t, std::uint32_t> latest_state(const Table& table, std::int64_t to) {
  std::pair<std::int64_t, std::uint32_t> best{-1, 0};
  std::int64_t began = -1;
  for (std::uint32_t d = 0; d < table.durations.size(); ++d) {
    for (std::int64_t t = to; t - table.durations[d] > began; --t) {
      if (table.like[d][static_cast<std::size_t>(t)] <= 0) continue;
      best = {t, d};
      began = t - table.durations[d];
    }
  }
  return best;
}

Impossible why(const Order& order, const std::vector<std::int64_t>& year, std::size_t units, std::size_t last) {
  Impossible out;
  for (std::size_t at = last;;) {
    out.steps.push_back({at < units ? static_cast<std::uint32_t>(at) : kNoUnit, at < units ? 0 : at - units, year[at]});
    std::optional<std::size_t> next;
    for (const std::size_t below : order.below[at]) {
      if (!next || year[below] > year[*next]) next = below;
    }
    if (!next || year[*next] == 0) break;  // what stands at the first year keeps nothing back
    at = *next;
  }
  std::ranges::reverse(out.steps);
  return out;
}

/// One loop among what could not be put in order.
Impossible loop_of(const Order& order, std::size_t units) {
  std::vector<bool> placed(order.below.size());
  for (const std::size_t i : order.earliest_first) placed[i] = true;
  std::vector<std::size_t> path{static_cast<std::size_t>(std::ranges::find(placed, false) - placed.begin())};
  while (true) {
    const auto next = std::ranges::find_if(order.below[path.back()], [&](std::size_t i) { return !placed[i]; });
    const auto seen = std::ranges::find(path, *next);
    const bool closed = seen != path.end();
    if (closed) path.erase(path.begin(), seen);
    if (closed) break;
    path.push_back(*next);
  }
  Impossible out;
  out.loop = true;
  for (auto at = path.rbegin(); at != path.rend(); ++at)
    out.steps.push_back({*at < units ? static_cast<std::uint32_t>(*at) : kNoUnit, *at < units ? 0 : *at - units, 0});
  return out;
}

}  // namespace

void add_sums(Table& table) {
  table.sums.clear();
  for (const auto& row : table.like) {
    std::vector<double> sums(row.size() + 1, 0);
    for (std::size_t t = 0; t < row.size(); ++t) sums[t + 1] = sums[t] + row[t];
    table.sums.push_back(std::move(sums));
  }
}

double Problem::log_weight(std::size_t stretch, std::size_t length) const {
  const Stretch& one = stretches[stretch];
  const double ways = one.log_ways.empty()
                          ? static_cast<double>(one.units.size()) * std::log(static_cast<double>(length + 1))
                          : one.log_ways[length];
  return -ways - std::log(static_cast<double>(years - length));
}

std::vector<std::vector<std::uint32_t>> Problem::above() const {
  std::vector<std::vector<std::uint32_t>> out(below.size());
  for (std::uint32_t unit = 0; unit < below.size(); ++unit) {
    for (const std::uint32_t earlier : below[unit]) out[earlier].push_back(unit);
  }
  return out;
}

Boundaries boundaries_of(const Problem& problem) {
  Boundaries out;
  const auto last = static_cast<std::int64_t>(problem.years) - 1;
  const auto add = [&] {
    out.all.push_back({.begins = {}, .ends = {}, .first = 0, .last = last, .before = {}, .after = {}});
    return out.all.size() - 1;
  };
  const auto no_later = [&](std::size_t a, std::size_t b) {
    out.all[a].after.push_back(b);
    out.all[b].before.push_back(a);
  };
  for (std::size_t s = 0; s < problem.stretches.size(); ++s) {
    out.alpha.push_back(add());
    out.beta.push_back(add());
  }
  if (problem.meet == Succession::abutting) {
    // The beginning that is no longer needed stays as a boundary of nothing, so that places do not shift.
    for (const auto& [a, b] : problem.succession) out.alpha[b] = out.beta[a];
  }
  for (std::size_t s = 0; s < problem.stretches.size(); ++s) {
    Boundary& alpha = out.all[out.alpha[s]];
    Boundary& beta = out.all[out.beta[s]];
    alpha.begins.push_back(s);
    beta.ends.push_back(s);
    alpha.first = std::max(alpha.first, problem.stretches[s].first);
    beta.last = std::min(beta.last, problem.stretches[s].last);
    no_later(out.alpha[s], out.beta[s]);
  }
  for (const auto& [a, b] : problem.succession) {
    if (problem.meet == Succession::gap) no_later(out.beta[a], out.alpha[b]);
    if (problem.meet != Succession::overlap) continue;
    no_later(out.alpha[a], out.alpha[b]);
    no_later(out.beta[a], out.beta[b]);
  }
  return out;
}

std::expected<Schedule, Impossible> earliest_schedule(const Problem& problem, const Boundaries& boundaries) {
  const std::size_t units = problem.tables.size();
  const Order order = order_of(problem, boundaries);
  if (order.earliest_first.size() < order.below.size()) return std::unexpected(loop_of(order, units));
  Schedule out{std::vector<std::int64_t>(units), std::vector<std::uint32_t>(units),
               std::vector<std::int64_t>(boundaries.all.size())};
  std::vector<std::int64_t> year(order.below.size(), 0);
  for (const std::size_t at : order.earliest_first) {
    std::int64_t from = 0;
    for (const std::size_t below : order.below[at]) from = std::max(from, year[below]);
    if (at >= units) {
      const Boundary& boundary = boundaries.all[at - units];
      year[at] = out.boundary[at - units] = std::max(from, boundary.first);
      if (year[at] > boundary.last) return std::unexpected(why(order, year, units, at));
      continue;
    }
    const auto state = earliest_state(problem.tables[at], from, problem.years);
    year[at] = state ? state->first : from;
    if (!state) return std::unexpected(why(order, year, units, at));
    out.completed[at] = state->first;
    out.duration[at] = state->second;
  }
  return out;
}

Schedule latest_schedule(const Problem& problem, const Boundaries& boundaries) {
  const std::size_t units = problem.tables.size();
  const Order order = order_of(problem, boundaries);
  Schedule out{std::vector<std::int64_t>(units), std::vector<std::uint32_t>(units),
               std::vector<std::int64_t>(boundaries.all.size())};
  std::vector<std::int64_t> began(order.below.size(), 0);
  for (auto at = order.earliest_first.rbegin(); at != order.earliest_first.rend(); ++at) {
    std::int64_t to = static_cast<std::int64_t>(problem.years) - 1;
    for (const std::size_t above : order.above[*at]) to = std::min(to, began[above]);
    if (*at >= units) {
      began[*at] = out.boundary[*at - units] = std::min(to, boundaries.all[*at - units].last);
      continue;
    }
    const auto [t, d] = latest_state(problem.tables[*at], to);
    out.completed[*at] = t;
    out.duration[*at] = d;
    began[*at] = t - problem.tables[*at].durations[d];
  }
  return out;
}

}  // namespace sherd::stratigraphy
