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

/// One unit of a forest with the years that everything outside the forest leaves it: begun in `from` or later, complete
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

/// Where what bounds a unit lies: its parent in the forest, or, of a root, a boundary.
enum class Bound : std::uint8_t { none, later, earlier };

/// A unit in its place in a forest.
struct Knot {
  Link link;
  std::uint32_t parent = kNoUnit;  ///< its place in the list, before this one; none for a root
  Bound bound = Bound::none;
};

/// Draws the states of units whose relations among each other make a forest from their joint distribution: what is
/// later begins when the earlier one was complete, or later. Sums go from the leaves to the roots, draws back. Work:
/// years x durations a unit. Numbers are kept relative to the sum of each unit.
template <class Real>
class ForestFilter {
 public:
  /// Parents before their children. False where nothing is left or the numbers run out of their range.
  bool filter(std::span<const Knot> knots) {
    knots_.assign(knots.begin(), knots.end());
    tighten();
    if (!lay_out()) return false;
    for (std::size_t i = knots_.size(); i-- > 0;) {
      if (!sum_up(i)) return false;
      if (knots_[i].parent != kNoUnit) tell(i);
    }
    return true;
  }

  /// Of a root that a boundary bounds: the share of the likelihood of its tree where it is complete in `year` or
  /// earlier, or begins in it or later, by the side on which the boundary lies.
  double share(std::size_t root, std::int32_t year) const {
    const Knot& at = knots_[root];
    const bool later = at.bound == Bound::later;
    if (later ? year < at.link.from : year > at.link.to) return 0;
    return static_cast<double>(sums_[rows_[root] + reach(at, year)]);
  }

  /// Draws all units, in the order of the list. `bound`: the year of the boundary that bounds roots.
  bool draw(std::int32_t bound, Random& random, std::vector<Drawn>& out) {
    out.resize(knots_.size());
    for (std::size_t i = 0; i < knots_.size(); ++i) {
      const Knot& at = knots_[i];
      std::int32_t year = bound;
      if (at.parent != kNoUnit) {
        const Drawn& parent = out[at.parent];
        year = parent.completed;
        if (at.bound == Bound::later)
          year -= static_cast<std::int32_t>(knots_[at.parent].link.table->durations[parent.duration]);
      } else if (at.bound == Bound::none) {
        year = at.link.to;
      }
      if (!pick(i, year, random, out[i])) return false;
    }
    return true;
  }

 private:
  static constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();

  /// Limits go from the leaves to the roots and back.
  void tighten() {
    const auto both = [](Knot& knot, Knot& parent) {
      Link& earlier = knot.bound == Bound::later ? knot.link : parent.link;
      Link& later = knot.bound == Bound::later ? parent.link : knot.link;
      later.from = std::max(later.from, earlier.from);
      earlier.to = std::min(earlier.to, later.to);
    };
    for (std::size_t i = knots_.size(); i-- > 0;) {
      if (knots_[i].parent != kNoUnit) both(knots_[i], knots_[knots_[i].parent]);
    }
    for (Knot& knot : knots_) {
      if (knot.parent != kNoUnit) both(knot, knots_[knot.parent]);
    }
  }

  /// Each unit has a row of sums, and rows of what its earlier and its later children say where it has any.
  bool lay_out() {
    const std::size_t n = knots_.size();
    rows_.resize(n);
    earlier_.assign(n, kNone);
    later_.assign(n, kNone);
    for (const Knot& knot : knots_) {
      if (knot.parent != kNoUnit) (knot.bound == Bound::later ? earlier_ : later_)[knot.parent] = 0;
    }
    std::size_t size = 0;
    std::size_t said = 0;
    for (std::size_t i = 0; i < n; ++i) {
      if (knots_[i].link.to < knots_[i].link.from) return false;
      const std::size_t width = years(knots_[i]);
      rows_[i] = size;
      size += width;
      for (auto* rows : {&earlier_, &later_}) {
        if ((*rows)[i] == kNone) continue;
        (*rows)[i] = said;
        said += width;
      }
    }
    if (sums_.size() < size) sums_.resize(size);
    said_.assign(said, Real{1});
    return true;
  }

  static std::size_t years(const Knot& knot) { return static_cast<std::size_t>(knot.link.to - knot.link.from) + 1; }

  /// The place in a row of sums of everything that a bound in this year, which leaves something, allows. Rows go by the
  /// year of completion, or by that of beginning from the last one back.
  static std::size_t reach(const Knot& knot, std::int32_t year) {
    return static_cast<std::size_t>(knot.bound == Bound::earlier ? knot.link.to - std::max(year, knot.link.from)
                                                                 : std::min(year, knot.link.to) - knot.link.from);
  }

  /// Calls f(place in the row, weight) for each state of one duration.
  template <class F>
  void each_state(std::size_t i, std::size_t d, F f) const {
    const Knot& at = knots_[i];
    const auto open = static_cast<std::int32_t>(at.link.table->durations[d]);
    const std::int32_t count = at.link.to - at.link.from - open + 1;
    if (count <= 0) return;
    const double* const like = at.link.table->like[d].data() + at.link.from + open;
    const Real* const by_begin = earlier_[i] == kNone ? nullptr : said_.data() + earlier_[i];
    const Real* const by_end = later_[i] == kNone ? nullptr : said_.data() + later_[i] + open;
    const auto go = [&](auto weight) {
      if (at.bound == Bound::earlier) {
        for (std::int32_t j = 0; j < count; ++j) f(count - 1 + open - j, weight(j));
      } else {
        for (std::int32_t j = 0; j < count; ++j) f(j + open, weight(j));
      }
    };
    if (by_begin != nullptr && by_end != nullptr) {
      go([&](std::int32_t j) { return static_cast<Real>(like[j]) * by_begin[j] * by_end[j]; });
    } else if (by_begin != nullptr) {
      go([&](std::int32_t j) { return static_cast<Real>(like[j]) * by_begin[j]; });
    } else if (by_end != nullptr) {
      go([&](std::int32_t j) { return static_cast<Real>(like[j]) * by_end[j]; });
    } else {
      go([&](std::int32_t j) { return static_cast<Real>(like[j]); });
    }
  }

  /// Fills the running sums of a unit; the last of them becomes 1.
  bool sum_up(std::size_t i) {
    const std::size_t count = years(knots_[i]);
    Real* const sum = sums_.data() + rows_[i];
    std::fill(sum, sum + count, Real{0});
    for (std::size_t d = 0; d < knots_[i].link.table->durations.size(); ++d)
      each_state(i, d, [&](std::int32_t place, Real weight) { sum[place] += weight; });
    for (std::size_t t = 1; t < count; ++t) sum[t] += sum[t - 1];
    const Real whole = sum[count - 1];
    if (!(whole > 0)) return false;
    const Real by = 1 / whole;
    if (!(by < std::numeric_limits<Real>::max())) return false;
    for (std::size_t t = 0; t < count; ++t) sum[t] *= by;
    return true;
  }

  /// Multiplies what a unit says into the row of its parent, which lies within its limits on the side it bounds.
  void tell(std::size_t i) {
    const Knot& at = knots_[i];
    const Link& own = at.link;
    const Link& parent = knots_[at.parent].link;
    const Real* const sum = sums_.data() + rows_[i];
    if (at.bound == Bound::later) {
      Real* const row = said_.data() + earlier_[at.parent];
      const std::int32_t end = std::min(parent.to, own.to);  // beyond it everything is allowed
      for (std::int32_t year = parent.from; year <= end; ++year) row[year - parent.from] *= sum[year - own.from];
    } else {
      Real* const row = said_.data() + later_[at.parent];
      for (std::int32_t year = std::max(parent.from, own.from); year <= parent.to; ++year)
        row[year - parent.from] *= sum[own.to - year];
    }
  }

  /// Draws the state of a unit that its bound leaves.
  bool pick(std::size_t i, std::int32_t bound, Random& random, Drawn& out) {
    const Knot& at = knots_[i];
    const bool by_begin = at.bound == Bound::earlier;
    if (by_begin ? bound > at.link.to : bound < at.link.from) return false;
    const Real* const sum = sums_.data() + rows_[i];
    const std::size_t last = reach(at, bound);
    if (!(sum[last] > 0)) return false;
    const Real drawn = static_cast<Real>(random.uniform()) * sum[last];
    const auto place = static_cast<std::int32_t>(std::upper_bound(sum, sum + last, drawn) - sum);
    const std::vector<std::int64_t>& durations = at.link.table->durations;
    const std::int32_t year = by_begin ? at.link.to - place : at.link.from + place;
    const auto completed = [&](std::size_t d) {
      return by_begin ? year + static_cast<std::int32_t>(durations[d]) : year;
    };
    weights_.assign(durations.size(), Real{0});
    Real all = 0;
    for (std::size_t d = 0; d < durations.size(); ++d) all += weights_[d] = weight(i, d, completed(d));
    if (!(all > 0)) return false;
    Real left = durations.size() > 1 ? static_cast<Real>(random.uniform()) * all : all / 2;
    for (std::uint32_t d = 0; d < durations.size(); ++d) {
      if (!(weights_[d] > 0)) continue;
      out = {completed(d), d};
      left -= weights_[d];
      if (left < 0) break;
    }
    return true;
  }

  Real weight(std::size_t i, std::size_t d, std::int32_t completed) const {
    const Link& link = knots_[i].link;
    const std::int32_t began = completed - static_cast<std::int32_t>(link.table->durations[d]);
    if (began < link.from || completed > link.to) return 0;
    auto out = static_cast<Real>(link.table->like[d][static_cast<std::size_t>(completed)]);
    if (earlier_[i] != kNone) out *= said_[earlier_[i] + static_cast<std::size_t>(began - link.from)];
    if (later_[i] != kNone) out *= said_[later_[i] + static_cast<std::size_t>(completed - link.from)];
    return out;
  }

  std::vector<Knot> knots_;
  std::vector<std::size_t> rows_, earlier_, later_;  ///< where the rows of each unit begin
  std::vector<Real> sums_, said_;
  std::vector<Real> weights_;
};

}  // namespace sherd::stratigraphy
