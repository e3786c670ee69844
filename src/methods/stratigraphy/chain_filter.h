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

/// From which side a chain is filtered, which is the side on which its share can be asked for.
enum class Towards { latest, earliest };

/// Draws the states of a chain from their joint distribution: each link begins when the one before it was complete or
/// later. Filtering sums up, drawing goes back. Work: years x durations a link. Numbers are kept relative to the
/// greatest of each link. Towards the earliest everything is done in the mirror: years are counted from the last one
/// backward, beginning and completion change places.
template <class Real>
class ChainFilter {
 public:
  /// Links, the earliest first. False where nothing is left or the numbers run out of their range.
  bool filter(std::span<const Link> links, std::size_t years, Towards towards = Towards::latest) {
    mirrored_ = towards == Towards::earliest;
    last_year_ = static_cast<std::int32_t>(years) - 1;
    links_.assign(links.begin(), links.end());
    if (mirrored_) {
      std::ranges::reverse(links_);
      for (Link& link : links_) link = {link.table, last_year_ - link.to, last_year_ - link.from};
    }
    tighten();
    if (!lay_out()) return false;
    for (std::size_t i = 0; i < links_.size(); ++i) {
      if (!(mirrored_ ? filter<true>(i) : filter<false>(i))) return false;
    }
    return true;
  }

  /// The share of the chain's likelihood that is complete in `year` or earlier, or begins in it or later, by the side.
  double share(std::int32_t year) const {
    const std::int32_t at = mirrored_ ? last_year_ - year : year;
    if (at < links_.back().from) return 0;
    return static_cast<double>(upto(links_.size() - 1, at));
  }

  /// Draws a chain that lies before (or after) the year that bounds it, the earliest first.
  bool draw(std::int32_t bound, Random& random, std::vector<Drawn>& out) {
    out.resize(links_.size());
    std::int32_t to = mirrored_ ? last_year_ - bound : bound;
    for (std::size_t i = links_.size(); i-- > 0;) {
      Drawn& one = mirrored_ ? out[links_.size() - 1 - i] : out[i];
      if (!pick(i, std::min(to, links_[i].to), random, one)) return false;
      const auto open = static_cast<std::int32_t>(links_[i].table->durations[one.duration]);
      to = one.completed - open;
      if (mirrored_) one.completed = last_year_ - one.completed + open;
    }
    return true;
  }
  /// Draws a chain that nothing else bounds.
  bool draw(Random& random, std::vector<Drawn>& out) { return draw(mirrored_ ? 0 : last_year_, random, out); }

 private:
  void tighten() {
    for (std::size_t i = 1; i < links_.size(); ++i) links_[i].from = std::max(links_[i].from, links_[i - 1].from);
    for (std::size_t i = links_.size() - 1; i-- > 0;) links_[i].to = std::min(links_[i].to, links_[i + 1].to);
  }

  bool lay_out() {
    rows_.resize(links_.size());
    std::size_t size = 0;
    for (std::size_t i = 0; i < links_.size(); ++i) {
      if (links_[i].to < links_[i].from) return false;
      rows_[i] = size;
      size += static_cast<std::size_t>(links_[i].to - links_[i].from) + 1;
    }
    if (sums_.size() < size) sums_.resize(size);
    return true;
  }

  /// The running sum of a link; a year that is not before its first.
  Real upto(std::size_t i, std::int32_t year) const {
    return sums_[rows_[i] + static_cast<std::size_t>(std::min(year, links_[i].to) - links_[i].from)];
  }

  /// The likelihood of a state that is complete in this year, which counts from the end in the mirror.
  template <bool kMirrored>
  Real like(const Link& link, std::size_t d, std::int32_t t) const {
    const double* const row = link.table->like[d].data();
    if constexpr (!kMirrored) return static_cast<Real>(row[t]);
    return static_cast<Real>(row[last_year_ + static_cast<std::int32_t>(link.table->durations[d]) - t]);
  }

  /// Fills the running sums of a link over the years in which it may be complete; the last of them becomes 1.
  template <bool kMirrored>
  bool filter(std::size_t i) {
    const auto count = static_cast<std::size_t>(links_[i].to - links_[i].from) + 1;
    Real* const sum = sums_.data() + rows_[i];
    std::fill(sum, sum + count, Real{0});
    for (std::size_t d = 0; d < links_[i].table->durations.size(); ++d) add<kMirrored>(i, d, sum);
    for (std::size_t t = 1; t < count; ++t) sum[t] += sum[t - 1];
    const Real whole = sum[count - 1];
    if (!(whole > 0)) return false;
    const Real by = 1 / whole;
    if (!(by < std::numeric_limits<Real>::max())) return false;
    for (std::size_t t = 0; t < count; ++t) sum[t] *= by;
    return true;
  }

  template <bool kMirrored>
  void add(std::size_t i, std::size_t d, Real* sum) {
    const Link& link = links_[i];
    const auto open = static_cast<std::int32_t>(link.table->durations[d]);
    std::int32_t t = link.from + open;
    if (i == 0) {
      for (; t <= link.to; ++t) sum[t - link.from] += like<kMirrored>(link, d, t);
      return;
    }
    const Link& other = links_[i - 1];
    const Real* const before = sums_.data() + rows_[i - 1];
    const std::int32_t middle = std::min(link.to, other.to + open);  // beyond it the running sum stays as it is
    for (; t <= middle; ++t) sum[t - link.from] += like<kMirrored>(link, d, t) * before[t - open - other.from];
    const Real whole = before[other.to - other.from];
    for (; t <= link.to; ++t) sum[t - link.from] += like<kMirrored>(link, d, t) * whole;
  }

  /// Draws the state of a link that is complete in `to` or earlier.
  bool pick(std::size_t i, std::int32_t to, Random& random, Drawn& out) {
    const Link& link = links_[i];
    if (to < link.from) return false;
    const Real whole = upto(i, to);
    if (!(whole > 0)) return false;
    const Real at = static_cast<Real>(random.uniform()) * whole;
    const Real* const sum = sums_.data() + rows_[i];
    out.completed = link.from + static_cast<std::int32_t>(std::upper_bound(sum, sum + (to - link.from), at) - sum);
    const std::size_t durations = link.table->durations.size();
    out.duration = 0;
    weights_.assign(durations, Real{0});
    Real all = 0;
    for (std::size_t d = 0; d < durations; ++d) all += weights_[d] = weight(i, d, out.completed);
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

  Real weight(std::size_t i, std::size_t d, std::int32_t t) const {
    const Link& link = links_[i];
    const std::int32_t began = t - static_cast<std::int32_t>(link.table->durations[d]);
    if (began < link.from) return 0;
    const Real own = mirrored_ ? like<true>(link, d, t) : like<false>(link, d, t);
    return i == 0 ? own : own * upto(i - 1, began);
  }

  bool mirrored_ = false;
  std::int32_t last_year_ = 0;
  std::vector<Link> links_;
  std::vector<std::size_t> rows_;  ///< where the sums of each link begin
  std::vector<Real> sums_;
  std::vector<Real> weights_;
};

}  // namespace sherd::stratigraphy
