#include "methods/stratigraphy/sampler.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "methods/stratigraphy/sampler_state.h"
#include "methods/stratigraphy/schedule_order.h"

namespace sherd::stratigraphy {

namespace {

/// From which chances of the units' own tables chains start.
constexpr double kEarly = 0.4, kLate = 0.6;

/// Turns and slides cost little and help where many dates crowd: one of each for so many units, within limits.
std::size_t times_for(std::size_t units, std::size_t units_each, std::size_t least, std::size_t most) {
  return std::clamp(units / units_each, least, most);
}

}  // namespace

Sampler::State::State(const Problem& problem, const Boundaries& boundaries, std::uint64_t seed, std::uint64_t number)
    : problem_(problem),
      boundaries_(boundaries),
      above_(problem.above()),
      random_(seed, number),
      stretch_(problem.tables.size(), kNone),
      lowest_(problem.tables.size()),
      highest_(problem.tables.size()),
      beside_(boundaries.all.size()),
      duration_(problem.tables.size()),
      weights_(problem.stretches.size(), std::vector<double>(problem.years)),
      all_(problem.tables.size()),
      within_(boundaries.all.size()),
      boundary_again_(boundaries.all.size()),
      began_sum_(problem.tables.size()),
      completed_sum_(problem.tables.size()),
      boundary_sum_(boundaries.all.size()),
      open_(problem.tables.size()),
      placed_(problem.tables.size()),
      tree_(problem.tables.size() + 1),
      turns_a_sweep_(times_for(problem.tables.size(), 250, 1, 8)),
      slides_a_sweep_(times_for(problem.tables.size(), 64, 4, 128)) {
  std::iota(all_.begin(), all_.end(), 0U);
  line_up();
  for (std::size_t s = 0; s < problem.stretches.size(); ++s) {
    for (const std::uint32_t unit : problem.stretches[s].units) stretch_[unit] = s;
  }
  for (std::uint32_t unit = 0; unit < problem.tables.size(); ++unit) {
    const std::size_t s = stretch_[unit];
    if (s == kNone) continue;
    within_[boundaries.alpha[s]].push_back(unit);
    within_[boundaries.beta[s]].push_back(unit);
    const auto same = [&](std::uint32_t other) { return stretch_[other] == s; };
    lowest_[unit] = std::ranges::none_of(problem.below[unit], same) ? 1 : 0;
    highest_[unit] = std::ranges::none_of(above_[unit], same) ? 1 : 0;
    if (lowest_[unit] != 0) beside_[boundaries.alpha[s]].push_back(unit);
    if (highest_[unit] != 0) beside_[boundaries.beta[s]].push_back(unit);
  }
  tree_.back() = static_cast<std::uint32_t>(all_.size());
  for (std::size_t s = 0; s < weights_.size(); ++s) {
    for (std::size_t d = 0; d < problem.years; ++d) weights_[s][d] = problem.log_weight(s, d);
  }
}

/// Puts units and boundaries in one order, what lies below first.
void Sampler::State::line_up() {
  order_of_all_ = order_of(problem_, boundaries_);
  slides_.resize(order_of_all_.below.size());
  for (const std::size_t at : order_of_all_.earliest_first) {
    if (at < all_.size()) {
      upward_.push_back(static_cast<std::uint32_t>(at));
      sequence_.push_back(at);
      continue;
    }
    const std::size_t k = at - all_.size();
    if (boundaries_.all[k].begins.empty() && boundaries_.all[k].ends.empty()) continue;
    used_.push_back(k);
    sequence_.push_back(at);
  }
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
  constexpr std::uint32_t kSeldom = 8;  // once the units near the boundaries are known these have trees of their own
  for (std::size_t k = 0; k < boundary.size(); ++k) {
    const bool trees = random_.below(near_.empty() ? 2 : kSeldom) == 0;
    draw_boundary(k, trees ? within_[k] : beside_[k], trees, power);
  }
  if (!problem_.stretches.empty()) {
    const auto any = static_cast<std::uint32_t>(problem_.stretches.size()) + 1;
    const std::size_t s = random_.below(any);
    shift(s == problem_.stretches.size() ? kNone : s);
  }
  if (power >= 1) {
    for (std::size_t i = 0; i < slides_a_sweep_; ++i) slide_somewhere();
  }
  const bool upward = random_.below(2) == 0;
  for (std::size_t i = 0; i < turns_a_sweep_; ++i) turn_all(upward);
  cover(all_);
  for (std::size_t k = 0; k < near_.size(); ++k) dwell(k);
  for (const auto& units : again_) cover(units);
  if (!near_.empty() || power < 1) return;
  for (std::size_t u = 0; u < all_.size(); ++u) {
    began_sum_[u] += began[u];
    completed_sum_[u] += completed[u];
  }
  for (std::size_t k = 0; k < boundary.size(); ++k) boundary_sum_[k] += boundary[k];
}

Sampler::Sampler(const Problem& problem, const Boundaries& boundaries, const Schedule& earliest, const Schedule& latest,
                 std::uint64_t seed, std::uint64_t number)
    : state_(std::make_unique<State>(problem, boundaries, seed, number)) {
  const bool early = number % 2 == 0;
  const auto likely = likely_schedule(problem, boundaries, earliest, latest, early ? kEarly : kLate);
  state_->start(likely ? *likely : early ? earliest : latest);
}
Sampler::~Sampler() = default;
Sampler::Sampler(Sampler&&) noexcept = default;

void Sampler::sweep(double power) { state_->sweep(power); }
void Sampler::settle() { state_->settle(); }
void Sampler::attend(const std::vector<std::uint32_t>& units, const std::vector<std::uint32_t>& boundaries) {
  state_->attend(units, boundaries);
}
const std::vector<std::int32_t>& Sampler::completed() const { return state_->completed; }
const std::vector<std::int32_t>& Sampler::began() const { return state_->began; }
const std::vector<std::int32_t>& Sampler::boundary() const { return state_->boundary; }

}  // namespace sherd::stratigraphy
