// Units opened as a forest, and drawn.
#include <algorithm>
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

void Sampler::State::set(std::uint32_t unit, const Drawn& drawn) {
  completed[unit] = drawn.completed;
  duration_[unit] = drawn.duration;
  began[unit] = drawn.completed - static_cast<std::int32_t>(problem_.tables[unit].durations[drawn.duration]);
}

/// The years that its surroundings leave a unit, open neighbours and a boundary left aside.
Link Sampler::State::link(std::uint32_t unit, std::size_t but_boundary) const {
  Link out{&problem_.tables[unit], 0, static_cast<std::int32_t>(problem_.years) - 1};
  for (const std::uint32_t other : problem_.below[unit]) {
    if (open_[other] == 0) out.from = std::max(out.from, completed[other]);
  }
  for (const std::uint32_t other : above_[unit]) {
    if (open_[other] == 0) out.to = std::min(out.to, began[other]);
  }
  const std::size_t s = stretch_[unit];
  if (s == kNone) return out;
  if (boundaries_.alpha[s] != but_boundary) out.from = std::max(out.from, boundary[boundaries_.alpha[s]]);
  if (boundaries_.beta[s] != but_boundary) out.to = std::min(out.to, boundary[boundaries_.beta[s]]);
  return out;
}

/// On which side a boundary bounds a unit directly.
Bound Sampler::State::bound_by(std::uint32_t unit, std::size_t k) const {
  const std::size_t s = stretch_[unit];
  if (s == kNone) return Bound::none;
  if (boundaries_.alpha[s] == k && lowest_[unit] != 0) return Bound::earlier;
  return boundaries_.beta[s] == k && highest_[unit] != 0 ? Bound::later : Bound::none;
}

void Sampler::State::shuffle(const std::vector<std::uint32_t>& units) {
  order_.assign(units.begin(), units.end());
  for (std::size_t i = order_.size(); i > 1; --i)
    std::swap(order_[i - 1], order_[random_.below(static_cast<std::uint32_t>(i))]);
}

/// The first of the tree that an open unit, or the boundary (whose number is that of the units), belongs to.
std::uint32_t Sampler::State::tree_of(std::uint32_t at) {
  while (tree_[at] != at) at = tree_[at] = tree_[tree_[at]];
  return at;
}

/// Opens a unit unless that would close a ring of open units, or of these and the boundary.
bool Sampler::State::open(std::uint32_t unit, std::size_t k) {
  met_.clear();
  const auto meets = [&](std::uint32_t other) {
    const std::uint32_t tree = tree_of(other);
    if (std::ranges::find(met_, tree) != met_.end()) return false;
    met_.push_back(tree);
    return true;
  };
  const auto closes_ring = [&](std::uint32_t other) { return open_[other] != 0 && !meets(other); };
  if (open_[unit] != 0 || std::ranges::any_of(problem_.below[unit], closes_ring) ||
      std::ranges::any_of(above_[unit], closes_ring))
    return false;
  if (bound_by(unit, k) != Bound::none && !meets(static_cast<std::uint32_t>(all_.size()))) return false;
  open_[unit] = 1;
  placed_[unit] = 0;
  tree_[unit] = unit;
  for (const std::uint32_t tree : met_) tree_[tree] = unit;
  opened_.push_back(unit);
  return true;
}

void Sampler::State::close() {
  for (const std::uint32_t unit : opened_) open_[unit] = 0;
  opened_.clear();
  tree_.back() = static_cast<std::uint32_t>(all_.size());
}

/// Puts the open units in order, tree by tree; those that hang on the boundary begin with the unit that does.
void Sampler::State::arrange(std::size_t k) {
  knots_.clear();
  knot_units_.clear();
  singles_.clear();
  const auto is_open = [&](std::uint32_t other) { return open_[other] != 0; };
  const auto add = [&](std::uint32_t unit, Bound bound) {
    const bool single =
        std::ranges::none_of(problem_.below[unit], is_open) && std::ranges::none_of(above_[unit], is_open);
    single ? singles_.push_back(unit) : add_tree(unit, bound, k);
  };
  if (k != kNone) {
    for (const std::uint32_t unit : opened_) {
      if (const Bound bound = bound_by(unit, k); bound != Bound::none) add(unit, bound);
    }
  }
  for (const std::uint32_t unit : opened_) {
    if (placed_[unit] == 0 && (k == kNone || bound_by(unit, k) == Bound::none)) add(unit, Bound::none);
  }
}

void Sampler::State::add_tree(std::uint32_t root, Bound bound, std::size_t k) {
  const auto add = [&](std::uint32_t unit, std::size_t parent, Bound side) {
    knots_.push_back({link(unit, k), parent == kNone ? kNoUnit : static_cast<std::uint32_t>(parent), side});
    knot_units_.push_back(unit);
    placed_[unit] = 1;
  };
  std::size_t at = knots_.size();
  add(root, kNone, bound);
  for (; at < knots_.size(); ++at) {
    const std::uint32_t unit = knot_units_[at];
    for (const std::uint32_t other : problem_.below[unit]) {
      if (open_[other] != 0 && placed_[other] == 0) add(other, at, Bound::later);
    }
    for (const std::uint32_t other : above_[unit]) {
      if (open_[other] != 0 && placed_[other] == 0) add(other, at, Bound::earlier);
    }
  }
}

/// Draws the open units given everything else. Where even the wide numbers fail their trees stay as they are.
void Sampler::State::draw_forest() {
  arrange(kNone);
  const auto draw = [&](auto& filter) { return filter.filter(knots_) && filter.draw(0, random_, drawn_); };
  if (!knots_.empty() && (draw(filter_) || draw(wide_))) keep_drawn();
  for (const std::uint32_t unit : singles_) draw_alone(unit);
}

void Sampler::State::keep_drawn() {
  for (std::size_t i = 0; i < knot_units_.size(); ++i) set(knot_units_[i], drawn_[i]);
}

/// Draws each of these units once, in as few forests as come about.
void Sampler::State::cover(const std::vector<std::uint32_t>& units) {
  shuffle(units);
  while (!order_.empty()) {
    std::erase_if(order_, [&](std::uint32_t unit) { return open(unit, kNone); });
    draw_forest();
    close();
  }
}

void Sampler::State::attend(const std::vector<std::uint32_t>& units, const std::vector<std::uint32_t>& boundaries) {
  boundary_again_ = boundaries;
  again_.clear();
  for (const std::uint32_t unit : all_) {
    if (again_.size() < units[unit]) again_.resize(units[unit]);
    for (std::uint32_t i = 0; i < units[unit]; ++i) again_[i].push_back(unit);
  }
}

/// Draws one unit given everything else, by its sums.
void Sampler::State::draw_alone(std::uint32_t unit) {
  const Link at = link(unit, kNone);
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

}  // namespace sherd::stratigraphy
