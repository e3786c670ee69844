#include "methods/stratigraphy/sampler.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "methods/stratigraphy/sampler_state.h"

namespace sherd::stratigraphy {

double mass(const Table& table, std::size_t d, std::int32_t from, std::int32_t to) {
  const auto begin = static_cast<std::size_t>(from + table.durations[d]);
  const auto end = static_cast<std::size_t>(std::max(0, to + 1));
  if (begin >= end) return 0;
  const double sum = table.sums[d][end] - table.sums[d][begin];
  // A difference that has lost its digits is summed up anew.
  if (sum > 1e-9 * table.sums[d][end]) return sum;
  return std::accumulate(table.like[d].begin() + static_cast<std::ptrdiff_t>(begin),
                         table.like[d].begin() + static_cast<std::ptrdiff_t>(end), 0.0);
}

Sampler::State::State(const Problem& problem, const Boundaries& boundaries, std::uint64_t seed, std::uint64_t number)
    : problem_(problem),
      boundaries_(boundaries),
      above_(problem.above()),
      random_(seed, number),
      stretch_(problem.tables.size(), kNone),
      lowest_(problem.stretches.size()),
      highest_(problem.stretches.size()),
      open_(problem.tables.size()),
      duration_(problem.tables.size()),
      logs_(problem.years + 2),
      all_(problem.tables.size()),
      began_sum_(problem.tables.size()),
      completed_sum_(problem.tables.size()),
      boundary_sum_(boundaries.all.size()) {
  std::iota(all_.begin(), all_.end(), 0U);
  for (std::size_t s = 0; s < problem.stretches.size(); ++s) {
    for (const std::uint32_t unit : problem.stretches[s].units) stretch_[unit] = s;
  }
  for (std::uint32_t unit = 0; unit < problem.tables.size(); ++unit) {
    const std::size_t s = stretch_[unit];
    if (s == kNone) continue;
    const auto same = [&](std::uint32_t other) { return stretch_[other] == s; };
    if (std::ranges::none_of(problem.below[unit], same)) lowest_[s].push_back(unit);
    if (std::ranges::none_of(above_[unit], same)) highest_[s].push_back(unit);
  }
  for (std::size_t i = 1; i < logs_.size(); ++i) logs_[i] = std::log(static_cast<double>(i));
}

void Sampler::State::start(const Schedule& schedule) {
  completed.resize(schedule.completed.size());
  began.resize(schedule.completed.size());
  for (std::uint32_t unit = 0; unit < completed.size(); ++unit) {
    set(unit, {static_cast<std::int32_t>(schedule.completed[unit]), schedule.duration[unit]});
  }
  boundary.assign(schedule.boundary.begin(), schedule.boundary.end());
}

void Sampler::State::sweep(double power) {
  constexpr std::array<std::size_t, 4> kDepths{1, 4, 16, kNone};
  drawn_alone_.assign(all_.size(), false);
  for (std::size_t k = 0; k < boundary.size(); ++k) draw_boundary(k, kDepths[random_.below(kDepths.size())], power);
  if (!problem_.stretches.empty()) {
    const auto any = static_cast<std::uint32_t>(problem_.stretches.size()) + 1;
    const std::size_t s = random_.below(any);
    shift(s == problem_.stretches.size() ? kNone : s);
  }
  cover(all_);
  for (std::size_t k = 0; k < near_.size(); ++k) dwell(k);
  if (!near_.empty() || power < 1) return;
  for (std::size_t u = 0; u < all_.size(); ++u) {
    began_sum_[u] += began[u];
    completed_sum_[u] += completed[u];
  }
  for (std::size_t k = 0; k < boundary.size(); ++k) boundary_sum_[k] += boundary[k];
}

void Sampler::State::set(std::uint32_t unit, const Drawn& drawn) {
  completed[unit] = drawn.completed;
  duration_[unit] = drawn.duration;
  began[unit] = drawn.completed - static_cast<std::int32_t>(problem_.tables[unit].durations[drawn.duration]);
}

/// The years that its surroundings leave a unit, a neighbour below, one above and a boundary left aside.
Link Sampler::State::link(std::uint32_t unit, std::uint32_t but_below, std::uint32_t but_above,
                          std::size_t but_boundary) const {
  Link out{&problem_.tables[unit], 0, static_cast<std::int32_t>(problem_.years) - 1};
  for (const std::uint32_t other : problem_.below[unit]) {
    if (other != but_below) out.from = std::max(out.from, completed[other]);
  }
  for (const std::uint32_t other : above_[unit]) {
    if (other != but_above) out.to = std::min(out.to, began[other]);
  }
  const std::size_t s = stretch_[unit];
  if (s == kNone) return out;
  if (boundaries_.alpha[s] != but_boundary) out.from = std::max(out.from, boundary[boundaries_.alpha[s]]);
  if (boundaries_.beta[s] != but_boundary) out.to = std::min(out.to, boundary[boundaries_.beta[s]]);
  return out;
}

void Sampler::State::set_links(const Chain& chain, std::size_t but_boundary) {
  links_.clear();
  for (std::size_t i = 0; i < chain.size(); ++i) {
    links_.push_back(
        link(chain[i], i > 0 ? chain[i - 1] : kNoUnit, i + 1 < chain.size() ? chain[i + 1] : kNoUnit, but_boundary));
  }
}

/// Draws a chain, the earliest first. Where even the wide numbers fail everything stays as it is.
void Sampler::State::draw_chain(const Chain& chain) {
  set_links(chain, kNone);
  const auto draw = [&](auto& filter) { return filter.filter(links_, problem_.years) && filter.draw(random_, drawn_); };
  if (!draw(filter_) && !draw(wide_)) return;
  for (std::size_t i = 0; i < chain.size(); ++i) set(chain[i], drawn_[i]);
}

/// Covers the order of these units by chains that have no unit in common, and draws each.
void Sampler::State::cover(const std::vector<std::uint32_t>& units) {
  order_.assign(units.begin(), units.end());
  for (std::size_t i = order_.size(); i > 1; --i)
    std::swap(order_[i - 1], order_[random_.below(static_cast<std::uint32_t>(i))]);
  covered_.assign(all_.size(), true);
  for (const std::uint32_t unit : units) covered_[unit] = false;
  for (const std::uint32_t unit : order_) {
    if (covered_[unit]) continue;
    chain_.assign(1, unit);
    covered_[unit] = true;
    extend(problem_.below);
    std::ranges::reverse(chain_);
    extend(above_);
    if (chain_.size() == 1) {
      if (!drawn_alone_[unit]) draw_alone(unit);
    } else {
      draw_chain(chain_);
    }
  }
}

void Sampler::State::extend(const std::vector<std::vector<std::uint32_t>>& next) {
  while (true) {
    std::uint32_t found = kNoUnit;
    std::uint32_t seen = 0;
    for (const std::uint32_t other : next[chain_.back()]) {
      if (!covered_[other] && random_.below(++seen) == 0) found = other;
    }
    if (found == kNoUnit) return;
    covered_[found] = true;
    chain_.push_back(found);
  }
}

/// Draws one unit given everything else, by its sums.
void Sampler::State::draw_alone(std::uint32_t unit) {
  drawn_alone_[unit] = true;
  const Link at = link(unit, kNoUnit, kNoUnit, kNone);
  const Table& table = *at.table;
  masses_.clear();
  double whole = 0;
  for (std::size_t d = 0; d < table.durations.size(); ++d) masses_.push_back(whole += mass(table, d, at.from, at.to));
  const double drawn = random_.uniform() * whole;
  const auto d = static_cast<std::size_t>(std::ranges::upper_bound(masses_, drawn) - masses_.begin());
  const double uniform = random_.uniform();
  if (d == masses_.size()) return;
  const auto begin = static_cast<std::size_t>(at.from + table.durations[d]);
  const auto end = static_cast<std::size_t>(at.to) + 1;
  const double before = table.sums[d][begin];
  const double of_duration = table.sums[d][end] - before;
  std::size_t t = begin;
  if (of_duration > 1e-9 * table.sums[d][end]) {
    const auto first = table.sums[d].begin();
    const auto found = std::upper_bound(first + static_cast<std::ptrdiff_t>(begin) + 1,
                                        first + static_cast<std::ptrdiff_t>(end), before + uniform * of_duration);
    t = static_cast<std::size_t>(found - first) - 1;
  } else {
    double left = uniform * (masses_[d] - (d > 0 ? masses_[d - 1] : 0));
    for (; t + 1 < end && left >= table.like[d][t]; ++t) left -= table.like[d][t];
  }
  if (table.like[d][t] > 0) set(unit, {static_cast<std::int32_t>(t), static_cast<std::uint32_t>(d)});
}

Sampler::Sampler(const Problem& problem, const Boundaries& boundaries, const Schedule& earliest, const Schedule& latest,
                 std::uint64_t seed, std::uint64_t number)
    : state_(std::make_unique<State>(problem, boundaries, seed, number)) {
  state_->start(number % 2 == 0 ? earliest : latest);
}
Sampler::~Sampler() = default;
Sampler::Sampler(Sampler&&) noexcept = default;

void Sampler::sweep(double power) { state_->sweep(power); }
void Sampler::settle() { state_->settle(); }
const std::vector<std::int32_t>& Sampler::completed() const { return state_->completed; }
const std::vector<std::int32_t>& Sampler::began() const { return state_->began; }
const std::vector<std::int32_t>& Sampler::boundary() const { return state_->boundary; }

}  // namespace sherd::stratigraphy
