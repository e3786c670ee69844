#include "methods/stratigraphy/sampler.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <tuple>

#include "methods/stratigraphy/chain_filter.h"

namespace sherd::stratigraphy {

namespace {

constexpr double kNever = -std::numeric_limits<double>::infinity();

/// Products of many factors of 0..1 for each of some years, without losing their range.
class Products {
 public:
  void start(std::size_t years) {
    logs_.assign(years, 0);
    running_.assign(years, 1);
  }
  void times(std::size_t i, double factor) {
    if (factor < 1e-100) {
      logs_[i] += factor > 0 ? std::log(factor) : kNever;
      return;
    }
    running_[i] *= factor;
    if (running_[i] > 1e-150) return;
    logs_[i] += std::log(running_[i]);
    running_[i] = 1;
  }
  void add_log(std::size_t i, double value) { logs_[i] += value; }
  /// One of the years with a chance that is in proportion to its product.
  std::size_t draw(Random& random) {
    double most = kNever;
    for (std::size_t i = 0; i < logs_.size(); ++i) {
      logs_[i] += std::log(running_[i]);
      most = std::max(most, logs_[i]);
    }
    double sum = 0;
    for (double& value : logs_) value = sum += most == kNever ? 1 : std::exp(value - most);
    const double at = random.uniform() * sum;
    return std::min(static_cast<std::size_t>(std::ranges::upper_bound(logs_, at) - logs_.begin()), logs_.size() - 1);
  }

 private:
  std::vector<double> logs_, running_;
};

/// The likelihood of the states of one duration that begin in `from` or later and are complete in `to` or earlier.
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

double mass(const Link& link) {
  double sum = 0;
  for (std::size_t d = 0; d < link.table->durations.size(); ++d) sum += mass(*link.table, d, link.from, link.to);
  return sum;
}

}  // namespace

class Sampler::State {
 public:
  State(const Problem& problem, const Boundaries& boundaries, std::uint64_t seed, std::uint64_t number)
      : problem_(problem),
        boundaries_(boundaries),
        above_(problem.above()),
        random_(seed, number),
        stretch_(problem.tables.size(), kNone),
        open_(problem.tables.size()),
        logs_(problem.years + 2) {
    for (std::size_t s = 0; s < problem.stretches.size(); ++s) {
      for (const std::uint32_t unit : problem.stretches[s].units) stretch_[unit] = s;
    }
    lowest_.resize(problem.stretches.size());
    highest_.resize(problem.stretches.size());
    for (std::uint32_t unit = 0; unit < problem.tables.size(); ++unit) {
      const std::size_t s = stretch_[unit];
      if (s == kNone) continue;
      const auto same = [&](std::uint32_t other) { return stretch_[other] == s; };
      if (std::ranges::none_of(problem.below[unit], same)) lowest_[s].push_back(unit);
      if (std::ranges::none_of(above_[unit], same)) highest_[s].push_back(unit);
    }
    for (std::size_t i = 1; i < logs_.size(); ++i) logs_[i] = std::log(static_cast<double>(i));
  }

  void start(const Schedule& schedule) {
    completed.resize(schedule.completed.size());
    began.resize(schedule.completed.size());
    for (std::uint32_t unit = 0; unit < completed.size(); ++unit) {
      set(unit, {static_cast<std::int32_t>(schedule.completed[unit]), schedule.duration[unit]});
    }
    boundary.assign(schedule.boundary.begin(), schedule.boundary.end());
  }

  void sweep(double power) {
    drawn_alone_.assign(problem_.tables.size(), false);
    for (std::size_t k = 0; k < boundary.size(); ++k) draw_boundary(k, power);
    cover();
  }

  std::vector<std::int32_t> completed, began, boundary;

 private:
  static constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();

  void set(std::uint32_t unit, const Drawn& drawn) {
    completed[unit] = drawn.completed;
    began[unit] = drawn.completed - static_cast<std::int32_t>(problem_.tables[unit].durations[drawn.duration]);
  }

  /// The years that its surroundings leave a unit, a neighbour below, one above and a boundary left aside.
  Link link(std::uint32_t unit, std::uint32_t but_below, std::uint32_t but_above, std::size_t but_boundary) const {
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

  /// Draws a chain, the earliest first. Where even the wide numbers fail everything stays as it is.
  void draw_chain(const std::vector<std::uint32_t>& chain) {
    links_.clear();
    for (std::size_t i = 0; i < chain.size(); ++i) {
      links_.push_back(
          link(chain[i], i > 0 ? chain[i - 1] : kNoUnit, i + 1 < chain.size() ? chain[i + 1] : kNoUnit, kNone));
    }
    if (!filter_.draw(links_, problem_.years, random_, drawn_) && !wide_.draw(links_, problem_.years, random_, drawn_))
      return;
    for (std::size_t i = 0; i < chain.size(); ++i) set(chain[i], drawn_[i]);
  }

  /// Covers the order by chains that have no unit in common, and draws each.
  void cover() {
    const std::size_t n = problem_.tables.size();
    order_.resize(n);
    std::iota(order_.begin(), order_.end(), 0U);
    for (std::size_t i = n; i > 1; --i) std::swap(order_[i - 1], order_[random_.below(static_cast<std::uint32_t>(i))]);
    covered_.assign(n, false);
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

  void extend(const std::vector<std::vector<std::uint32_t>>& next) {
    while (true) {
      const std::vector<std::uint32_t>& near = next[chain_.back()];
      std::uint32_t found = kNoUnit;
      std::uint32_t seen = 0;
      for (const std::uint32_t other : near) {
        if (!covered_[other] && random_.below(++seen) == 0) found = other;
      }
      if (found == kNoUnit) return;
      covered_[found] = true;
      chain_.push_back(found);
    }
  }

  void draw_alone(std::uint32_t unit);
  void draw_boundary(std::size_t k, double power);
  std::pair<std::int32_t, std::int32_t> window(std::size_t k, std::int32_t first, std::int32_t last);
  void choose_open(const Boundary& one);
  void times_begins(std::uint32_t unit, std::size_t k, std::int32_t first, std::int32_t last);
  void times_ends(std::uint32_t unit, std::size_t k, std::int32_t first, std::int32_t last);

  const Problem& problem_;
  const Boundaries& boundaries_;
  std::vector<std::vector<std::uint32_t>> above_;
  Random random_;
  std::vector<std::size_t> stretch_;                          ///< of each unit
  std::vector<std::vector<std::uint32_t>> lowest_, highest_;  ///< of each stretch: with none of it below, or above
  std::vector<bool> open_;                                    ///< units left open while a boundary is drawn
  std::vector<double> logs_;                                  ///< of whole numbers

  ChainFilter<double> filter_;
  ChainFilter<long double> wide_;
  std::vector<Link> links_;
  std::vector<Drawn> drawn_;
  std::vector<std::uint32_t> order_, chain_, opened_;
  std::vector<bool> covered_, drawn_alone_;
  Products products_;
  std::vector<double> masses_;
};

/// Of the units next to a boundary those that are no neighbours of each other: given everything else they are
/// independent.
void Sampler::State::choose_open(const Boundary& one) {
  opened_.clear();
  const auto open = [&](std::uint32_t unit) {
    const auto is_open = [&](std::uint32_t other) { return open_[other]; };
    if (open_[unit] || std::ranges::any_of(problem_.below[unit], is_open) || std::ranges::any_of(above_[unit], is_open))
      return;
    open_[unit] = true;
    opened_.push_back(unit);
  };
  for (const std::size_t s : one.begins) std::ranges::for_each(lowest_[s], open);
  for (const std::size_t s : one.ends) std::ranges::for_each(highest_[s], open);
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

/// The chance that a unit begins at a boundary or later, for each year in which the boundary may lie.
void Sampler::State::times_begins(std::uint32_t unit, std::size_t k, std::int32_t first, std::int32_t last) {
  Link at = link(unit, kNoUnit, kNoUnit, k);
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
  Link at = link(unit, kNoUnit, kNoUnit, k);
  at.to = std::min(last, at.to);
  const double whole = mass(at);
  if (!(whole > 0)) return;
  for (std::int32_t year = at.to - 1; year >= first; --year) {
    at.to = year;
    products_.times(static_cast<std::size_t>(year - first), year < at.from ? 0 : std::min(1.0, mass(at) / whole));
  }
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

void Sampler::State::draw_boundary(std::size_t k, double power) {
  const Boundary& one = boundaries_.all[k];
  if (one.begins.empty() && one.ends.empty()) return;
  choose_open(one);
  auto first = static_cast<std::int32_t>(one.first);
  auto last = static_cast<std::int32_t>(one.last);
  for (const std::size_t other : one.before) first = std::max(first, boundary[other]);
  for (const std::size_t other : one.after) last = std::min(last, boundary[other]);
  for (const std::size_t s : one.begins) {
    for (const std::uint32_t unit : problem_.stretches[s].units)
      last = open_[unit] ? last : std::min(last, began[unit]);
  }
  for (const std::size_t s : one.ends) {
    for (const std::uint32_t unit : problem_.stretches[s].units)
      first = open_[unit] ? first : std::max(first, completed[unit]);
  }
  std::tie(first, last) = window(k, first, last);
  const auto years = static_cast<std::size_t>(last - first + 1);
  products_.start(years);
  const auto prior = [&](std::size_t s, std::size_t i, std::int32_t length) {
    const auto d = static_cast<std::size_t>(length);
    const auto n = static_cast<double>(problem_.stretches[s].units.size());
    products_.add_log(i, power * (-n * logs_[d + 1] - logs_[problem_.years - d]));
  };
  for (std::size_t i = 0; i < years; ++i) {
    const std::int32_t year = first + static_cast<std::int32_t>(i);
    for (const std::size_t s : one.begins) prior(s, i, boundary[boundaries_.beta[s]] - year);
    for (const std::size_t s : one.ends) prior(s, i, year - boundary[boundaries_.alpha[s]]);
  }
  for (const std::uint32_t unit : opened_) {
    const std::size_t s = stretch_[unit];
    if (boundaries_.alpha[s] == k) times_begins(unit, k, first, last);
    if (boundaries_.beta[s] == k) times_ends(unit, k, first, last);
  }
  boundary[k] = first + static_cast<std::int32_t>(products_.draw(random_));
  for (const std::uint32_t unit : opened_) {
    open_[unit] = false;
    draw_alone(unit);
  }
}

Sampler::Sampler(const Problem& problem, const Boundaries& boundaries, const Schedule& earliest, const Schedule& latest,
                 std::uint64_t seed, std::uint64_t number)
    : state_(std::make_unique<State>(problem, boundaries, seed, number)) {
  state_->start(number % 2 == 0 ? earliest : latest);
}
Sampler::~Sampler() = default;
Sampler::Sampler(Sampler&&) noexcept = default;

void Sampler::sweep(double power) { state_->sweep(power); }
const std::vector<std::int32_t>& Sampler::completed() const { return state_->completed; }
const std::vector<std::int32_t>& Sampler::began() const { return state_->began; }
const std::vector<std::int32_t>& Sampler::boundary() const { return state_->boundary; }

}  // namespace sherd::stratigraphy
