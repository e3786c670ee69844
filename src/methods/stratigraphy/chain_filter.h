#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "base/random.h"
#include "methods/stratigraphy/problem.h"

namespace sherd::stratigraphy {

/// One unit of a chain with the years that everything outside the chain leaves it: begun in `from` or later, complete
/// in `to` or earlier.
struct Link {
  const Table* table = nullptr;
  std::int32_t from = 0, to = 0;
};

/// A state of a unit: the year it was complete, and which of its durations.
struct Drawn {
  std::int32_t completed = 0;
  std::uint32_t duration = 0;
};

/// Draws the states of a chain, the earliest first, from their joint distribution: each link begins when the one before
/// it was complete or later. Work: years x durations a link. Numbers are kept relative to the greatest of each link.
template <class Real>
class ChainFilter {
 public:
  /// False where the numbers run out of their range.
  bool draw(std::span<Link> links, std::size_t years, Random& random, std::vector<Drawn>& out) {
    tighten(links);
    years_ = years;
    if (sums_.size() < links.size() * years) sums_.resize(links.size() * years);
    for (std::size_t i = 0; i < links.size(); ++i) {
      if (!filter(links, i)) return false;
    }
    out.resize(links.size());
    std::int32_t to = links.back().to;
    for (std::size_t i = links.size(); i-- > 0;) {
      to = std::min(to, links[i].to);
      if (!pick(links, i, to, random, out[i])) return false;
      to = out[i].completed - static_cast<std::int32_t>(links[i].table->durations[out[i].duration]);
    }
    return true;
  }

 private:
  static void tighten(std::span<Link> links) {
    for (std::size_t i = 1; i < links.size(); ++i) links[i].from = std::max(links[i].from, links[i - 1].from);
    for (std::size_t i = links.size() - 1; i-- > 0;) links[i].to = std::min(links[i].to, links[i + 1].to);
  }

  Real* row(std::size_t i) { return sums_.data() + i * years_; }

  /// Fills the running sums of a link over the years in which it may be complete; the last of them becomes 1.
  bool filter(std::span<const Link> links, std::size_t i) {
    const Link& link = links[i];
    if (link.to < link.from) return false;
    Real* const sum = row(i);
    std::fill(sum + link.from, sum + link.to + 1, Real{0});
    for (std::size_t d = 0; d < link.table->durations.size(); ++d) add(links, i, d, sum);
    for (std::int32_t t = link.from + 1; t <= link.to; ++t) sum[t] += sum[t - 1];
    const Real whole = sum[link.to];
    if (!(whole > 0)) return false;
    const Real by = 1 / whole;
    if (!(by < std::numeric_limits<Real>::max())) return false;
    for (std::int32_t t = link.from; t <= link.to; ++t) sum[t] *= by;
    return true;
  }

  void add(std::span<const Link> links, std::size_t i, std::size_t d, Real* sum) {
    const Link& link = links[i];
    const auto duration = static_cast<std::int32_t>(link.table->durations[d]);
    const double* const like = link.table->like[d].data();
    const std::int32_t begin = link.from + duration;
    if (i == 0) {
      for (std::int32_t t = begin; t <= link.to; ++t) sum[t] += static_cast<Real>(like[t]);
      return;
    }
    const Real* const before = row(i - 1);
    const std::int32_t last = links[i - 1].to;  // beyond it the running sum stays as it is
    const std::int32_t middle = std::min(link.to, last + duration);
    for (std::int32_t t = begin; t <= middle; ++t) sum[t] += static_cast<Real>(like[t]) * before[t - duration];
    const Real whole = before[last];
    for (std::int32_t t = std::max(begin, middle + 1); t <= link.to; ++t) sum[t] += static_cast<Real>(like[t]) * whole;
  }

  /// Draws the state of a link that is complete in `to` or earlier.
  bool pick(std::span<const Link> links, std::size_t i, std::int32_t to, Random& random, Drawn& out) {
    const Link& link = links[i];
    if (to < link.from) return false;
    const Real* const sum = row(i);
    const Real whole = sum[to];
    if (!(whole > 0)) return false;
    const Real at = static_cast<Real>(random.uniform()) * whole;
    out.completed = static_cast<std::int32_t>(std::upper_bound(sum + link.from, sum + to, at) - sum);
    const std::size_t durations = link.table->durations.size();
    out.duration = 0;
    weights_.assign(durations, Real{0});
    Real all = 0;
    for (std::size_t d = 0; d < durations; ++d) all += weights_[d] = weight(links, i, d, out.completed);
    if (!(all > 0)) return false;
    if (durations == 1) return true;
    Real left = static_cast<Real>(random.uniform()) * all;
    for (std::uint32_t d = 0; d < durations; ++d) {
      if (!(weights_[d] > 0)) continue;
      out.duration = d;
      left -= weights_[d];
      if (left < 0) break;
    }
    return true;
  }

  Real weight(std::span<const Link> links, std::size_t i, std::size_t d, std::int32_t t) {
    const Link& link = links[i];
    const std::int32_t began = t - static_cast<std::int32_t>(link.table->durations[d]);
    if (began < link.from) return 0;
    const auto like = static_cast<Real>(link.table->like[d][static_cast<std::size_t>(t)]);
    return i == 0 ? like : like * row(i - 1)[std::min(began, links[i - 1].to)];
  }

  std::size_t years_ = 0;
  std::vector<Real> sums_;
  std::vector<Real> weights_;
};

}  // namespace sherd::stratigraphy
