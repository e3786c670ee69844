// The moves of the boundaries of stretches: with what hangs on them, and with everything.
#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include "methods/stratigraphy/sampler_state.h"

namespace sherd::stratigraphy {

namespace {

double mass(const Link& link) {
  double sum = 0;
  for (std::size_t d = 0; d < link.table->durations.size(); ++d) sum += mass(*link.table, d, link.from, link.to);
  return sum;
}

}  // namespace

/// Opens units for a boundary: single ones in their order, so that as many as can be are open, or trees at random.
void Sampler::State::open_at(std::size_t k, const std::vector<std::uint32_t>& units, bool trees) {
  if (trees) {
    shuffle(units);
    for (const std::uint32_t unit : order_) open(unit, k);
    return;
  }
  const auto is_open = [&](std::uint32_t other) { return open_[other] != 0; };
  for (const std::uint32_t unit : units) {
    if (bound_by(unit, k) == Bound::none || std::ranges::any_of(problem_.below[unit], is_open) ||
        std::ranges::any_of(above_[unit], is_open))
      continue;
    open_[unit] = 1;
    placed_[unit] = 0;
    opened_.push_back(unit);
  }
}

/// The years that are left to a boundary by other boundaries and by the units of its stretches that are not open.
std::pair<std::int32_t, std::int32_t> Sampler::State::range(const Boundary& one) const {
  auto first = static_cast<std::int32_t>(one.first);
  auto last = static_cast<std::int32_t>(one.last);
  for (const std::size_t other : one.before) first = std::max(first, boundary[other]);
  for (const std::size_t other : one.after) last = std::min(last, boundary[other]);
  for (const std::size_t s : one.begins) {
    for (const std::uint32_t unit : problem_.stretches[s].units)
      last = open_[unit] != 0 ? last : std::min(last, began[unit]);
  }
  for (const std::size_t s : one.ends) {
    for (const std::uint32_t unit : problem_.stretches[s].units)
      first = open_[unit] != 0 ? first : std::max(first, completed[unit]);
  }
  return {first, last};
}

/// A part of the years in which a boundary may lie, about where it stands. All years of a part draw it alike, so that
/// drawing within it leaves the distribution as it is.
std::pair<std::int32_t, std::int32_t> Sampler::State::window(std::size_t k, std::int32_t first, std::int32_t last) {
  constexpr std::array<std::int32_t, 10> kWidths{16, 16, 16, 64, 64, 64, 64, 256, 256, 1 << 20};
  const std::int32_t width = kWidths[random_.below(kWidths.size())];
  const auto before = static_cast<std::int32_t>(random_.below(static_cast<std::uint32_t>(width)));
  const std::int32_t begin = boundary[k] - before;
  return {std::max(first, begin), std::min(last, begin + width - 1)};
}

void Sampler::State::times_prior(const Boundary& one, std::int32_t first, std::int32_t last, double power) {
  const auto times = [&](std::size_t s, std::int32_t year, std::int32_t length) {
    products_.add_log(static_cast<std::size_t>(year - first), power * weights_[s][static_cast<std::size_t>(length)]);
  };
  for (std::int32_t year = first; year <= last; ++year) {
    for (const std::size_t s : one.begins) times(s, year, boundary[boundaries_.beta[s]] - year);
    for (const std::size_t s : one.ends) times(s, year, year - boundary[boundaries_.alpha[s]]);
  }
}

/// The chance that a unit begins at a boundary or later, for each year in which the boundary may lie.
void Sampler::State::times_begins(std::uint32_t unit, std::size_t k, std::int32_t first, std::int32_t last) {
  Link at = link(unit, k);
  const std::int32_t held = at.from;
  at.from = std::max(first, held);
  const double whole = mass(at);
  if (!(whole > 0)) return;
  for (std::int32_t year = at.from + 1; year <= last; ++year) {
    at.from = year;
    products_.times(static_cast<std::size_t>(year - first), year > at.to ? 0 : std::min(1.0, mass(at) / whole));
  }
}

/// The chance that a unit is complete at a boundary or earlier.
void Sampler::State::times_ends(std::uint32_t unit, std::size_t k, std::int32_t first, std::int32_t last) {
  Link at = link(unit, k);
  at.to = std::min(last, at.to);
  const double whole = mass(at);
  if (!(whole > 0)) return;
  for (std::int32_t year = at.to - 1; year >= first; --year) {
    at.to = year;
    products_.times(static_cast<std::size_t>(year - first), year < at.from ? 0 : std::min(1.0, mass(at) / whole));
  }
}

/// The chance that whole trees lie on their side of a boundary. False where the numbers run out of their range.
bool Sampler::State::times_trees(std::size_t k, std::int32_t first, std::int32_t last) {
  for (const std::uint32_t unit : singles_) {
    const Bound bound = bound_by(unit, k);
    if (bound == Bound::later) times_ends(unit, k, first, last);
    if (bound == Bound::earlier) times_begins(unit, k, first, last);
  }
  for (Knot& knot : knots_) {
    if (knot.parent != kNoUnit) continue;
    if (knot.bound == Bound::later) knot.link.to = std::min(knot.link.to, last);
    if (knot.bound == Bound::earlier) knot.link.from = std::max(knot.link.from, first);
  }
  if (!filter_.filter(knots_)) return false;
  for (std::size_t i = 0; i < knots_.size(); ++i) {
    if (knots_[i].parent != kNoUnit || knots_[i].bound == Bound::none) continue;
    for (std::int32_t year = first; year <= last; ++year)
      products_.times(static_cast<std::size_t>(year - first), filter_.share(i, year));
  }
  return true;
}

/// Draws a boundary with the trees that hang on it. Where the numbers fail everything stays as it is: whether they do
/// hangs on what is not drawn.
void Sampler::State::draw_boundary(std::size_t k, const std::vector<std::uint32_t>& units, bool trees, double power) {
  const Boundary& one = boundaries_.all[k];
  if (one.begins.empty() && one.ends.empty()) return;
  open_at(k, units, trees);
  arrange(k);
  const auto [least, most] = range(one);
  const auto [first, last] = window(k, least, most);
  products_.start(static_cast<std::size_t>(last - first + 1));
  times_prior(one, first, last, power);
  const auto year = times_trees(k, first, last) ? products_.draw(random_) : std::nullopt;
  if (year) move_boundary(k, first + static_cast<std::int32_t>(*year));
  close();
}

/// Puts a boundary into a year and draws the open units within it; all of them or none.
void Sampler::State::move_boundary(std::size_t k, std::int32_t year) {
  if (!filter_.draw(year, random_, drawn_)) return;
  boundary[k] = year;
  keep_drawn();
  for (const std::uint32_t unit : singles_) draw_alone(unit);
}

/// Ends the warm-up by choosing which units lie near each boundary: that must not hang on where they stand later.
void Sampler::State::settle() {
  constexpr std::size_t kLeast = 12, kShare = 8, kMost = 48;
  near_.assign(boundary.size(), {});
  for (std::size_t k = 0; k < boundary.size(); ++k) {
    std::vector<std::pair<double, std::uint32_t>> by_distance;
    for (const std::size_t s : boundaries_.all[k].begins) {
      for (const std::uint32_t u : problem_.stretches[s].units)
        by_distance.emplace_back(began_sum_[u] - boundary_sum_[k], u);
    }
    for (const std::size_t s : boundaries_.all[k].ends) {
      for (const std::uint32_t u : problem_.stretches[s].units)
        by_distance.emplace_back(boundary_sum_[k] - completed_sum_[u], u);
    }
    std::ranges::sort(by_distance);
    by_distance.resize(std::min(by_distance.size(), std::clamp(by_distance.size() / kShare, kLeast, kMost)));
    for (const auto& [distance, u] : by_distance) near_[k].push_back(u);
  }
}

/// Draws a boundary and the units near it a few times more: where many crowd there it moves slowly.
void Sampler::State::dwell(std::size_t k) {
  if (near_[k].empty()) return;
  const std::size_t times = std::max<std::size_t>(2, near_[k].size() / 12) * (1 + boundary_again_[k]);
  for (std::size_t i = 0; i < times; ++i) {
    draw_boundary(k, near_[k], i % 2 != 0, 1);
    cover(near_[k]);
  }
}

/// Whether nothing outside a stretch (or, without one, no end of the window) stands in the way of moving all of it.
bool Sampler::State::may_shift(std::size_t stretch, std::int32_t by) const {
  for (std::size_t k = 0; k < boundary.size(); ++k) {
    const Boundary& one = boundaries_.all[k];
    if (one.begins.empty() && one.ends.empty()) continue;
    if (stretch != kNone && k != boundaries_.alpha[stretch] && k != boundaries_.beta[stretch]) continue;
    const bool shared = one.begins.size() + one.ends.size() > 1;
    const std::int32_t year = boundary[k] + by;
    if ((shared && stretch != kNone) || year < one.first || year > one.last) return false;
    if (stretch == kNone) continue;
    const auto own = [&](std::size_t other) {
      return other == boundaries_.alpha[stretch] || other == boundaries_.beta[stretch];
    };
    const auto behind = [&](std::size_t other) { return !own(other) && boundary[other] > year; };
    const auto ahead = [&](std::size_t other) { return !own(other) && boundary[other] < year; };
    if (std::ranges::any_of(one.before, behind) || std::ranges::any_of(one.after, ahead)) return false;
  }
  if (stretch == kNone) return true;
  return std::ranges::all_of(problem_.stretches[stretch].units, [&](std::uint32_t unit) {
    const auto behind = [&](std::uint32_t other) {
      return stretch_[other] != stretch && completed[other] > began[unit] + by;
    };
    const auto ahead = [&](std::uint32_t other) {
      return stretch_[other] != stretch && began[other] < completed[unit] + by;
    };
    return std::ranges::none_of(problem_.below[unit], behind) && std::ranges::none_of(above_[unit], ahead);
  });
}

/// Moves a stretch (or everything) by a number of years that is drawn evenly to either side, and takes it back or not
/// by the ratio of the likelihoods (Metropolis); lengths, and with them the prior, stay the same.
void Sampler::State::shift(std::size_t stretch) {
  constexpr std::array<std::uint32_t, 5> kWidths{1, 4, 16, 64, 256};
  const std::uint32_t width = kWidths[random_.below(kWidths.size())];
  const auto size = static_cast<std::int32_t>(1 + random_.below(width));
  const std::int32_t by = random_.below(2) == 0 ? size : -size;
  const double accept = std::log(1 - random_.uniform());
  if (!may_shift(stretch, by)) return;
  const auto moves = [&](std::uint32_t unit) { return stretch == kNone || stretch_[unit] == stretch; };
  double ratio = 0;
  for (std::uint32_t unit = 0; unit < completed.size(); ++unit) {
    if (!moves(unit)) continue;
    const std::int32_t year = completed[unit] + by;
    if (began[unit] + by < 0 || year >= static_cast<std::int32_t>(problem_.years)) return;
    const auto& like = problem_.tables[unit].like[duration_[unit]];
    ratio += std::log(like[static_cast<std::size_t>(year)] / like[static_cast<std::size_t>(completed[unit])]);
  }
  if (!(accept < ratio)) return;
  for (std::uint32_t unit = 0; unit < completed.size(); ++unit) {
    if (!moves(unit)) continue;
    completed[unit] += by;
    began[unit] += by;
  }
  for (std::size_t k = 0; k < boundary.size(); ++k) {
    const bool unused = boundaries_.all[k].begins.empty() && boundaries_.all[k].ends.empty();
    const bool own = stretch == kNone || k == boundaries_.alpha[stretch] || k == boundaries_.beta[stretch];
    if (own && !unused) boundary[k] += by;
  }
}

}  // namespace sherd::stratigraphy
