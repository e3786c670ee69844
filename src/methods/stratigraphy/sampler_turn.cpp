// Dates turned over within what their neighbours leave them.
#include <algorithm>
#include <cmath>

#include "methods/stratigraphy/sampler_state.h"

namespace sherd::stratigraphy {

/// Turns every date once, in the order of the ground or against it. In a fixed order room that lies between dates is
/// handed on from one to the next, so that many dates that crowd move together a long way, where drawing them anew
/// would be a random walk.
void Sampler::State::turn_all(bool upward) {
  const std::size_t n = upward_.size();
  for (std::size_t i = 0; i < n; ++i) turn(upward_[upward ? i : n - 1 - i]);
}

/// Puts a completion as far from the one end of what everything else leaves it as it was from the other, measured in
/// likelihood and at random within its year; how long it was open stays. This leaves the distribution as it is
/// (overrelaxation, S. Adler 1981).
void Sampler::State::turn(std::uint32_t unit) {
  constexpr std::int32_t kFew = 24;
  const Table& table = problem_.tables[unit];
  const std::uint32_t d = duration_[unit];
  const auto open = static_cast<std::int32_t>(table.durations[d]);
  const Link at = link(unit, kNone);
  const std::int32_t from = at.from + open;
  if (from >= at.to) return;
  const double* const like = table.like[d].data();
  const std::int32_t stood = completed[unit];
  std::int32_t year = from;
  if (at.to - from < kFew) {
    double after = -random_.uniform() * like[stood];
    for (std::int32_t t = stood; t <= at.to; ++t) after += like[t];
    for (; year < at.to && after >= like[year]; ++year) after -= like[year];
  } else {
    const double* const sums = table.sums[d].data();
    if (!(sums[at.to + 1] - sums[from] > 1e-9 * table.sums[d].back())) return;
    const double before = sums[stood] + random_.uniform() * like[stood];
    const double turned = sums[from] + (sums[at.to + 1] - before);
    year = static_cast<std::int32_t>(std::upper_bound(sums + from + 1, sums + at.to + 1, turned) - sums) - 1;
  }
  if (like[year] > 0) set(unit, {year, d});
}

}  // namespace sherd::stratigraphy
