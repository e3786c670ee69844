#include "methods/stratigraphy/marginals.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace sherd::stratigraphy {

namespace {

/// Below this share of its whole likelihood a range is summed up term by term, since differences of sums lose digits.
constexpr double kSmall = 1e-6;

/// What is left of a difference that should be 0.
constexpr double kLostDigits = 1e-11;

/// Adds up a unit's distributions within changing limits.
class Mixture {
 public:
  Mixture(const Table& table, std::size_t years)
      : table_(table),
        years_(years),
        sums_(table.durations.size(), std::vector<double>(years + 1, 0)),
        steps_(sums_),
        direct_(table.durations.size(), std::vector<double>(years, 0)) {
    for (std::size_t d = 0; d < sums_.size(); ++d) {
      for (std::size_t t = 0; t < years; ++t) sums_[d][t + 1] = sums_[d][t] + table.like[d][t];
      whole_ += sums_[d].back();
    }
  }

  /// Begun in `from` or later and complete in `to` or earlier.
  void add(std::int32_t from, std::int32_t to) {
    double sum = 0;
    for (std::size_t d = 0; d < sums_.size(); ++d) {
      if (const auto [begin, end] = range(d, from, to); begin < end) sum += sums_[d][end] - sums_[d][begin];
    }
    const bool small = sum < kSmall * whole_;
    if (small) sum = term_by_term(from, to);
    if (!(sum > 0)) return;
    for (std::size_t d = 0; d < sums_.size(); ++d) {
      const auto [begin, end] = range(d, from, to);
      if (begin >= end) continue;
      if (!small) {
        steps_[d][begin] += 1 / sum;
        steps_[d][end] -= 1 / sum;
        continue;
      }
      for (std::size_t t = begin; t < end; ++t) direct_[d][t] += table_.like[d][t] / sum;
    }
    ++count_;
  }

  Chances mean() {
    double sum = 0;
    for (std::size_t d = 0; d < direct_.size(); ++d) {
      double height = 0;
      double highest = 0;
      for (std::size_t t = 0; t < years_; ++t) {
        height += steps_[d][t];
        highest = std::max(highest, height);
        if (height > kLostDigits * highest) direct_[d][t] += table_.like[d][t] * height;
        sum += direct_[d][t];
      }
    }
    for (auto& row : direct_) {
      for (double& value : row) value /= sum;
    }
    return std::move(direct_);
  }

 private:
  std::pair<std::size_t, std::size_t> range(std::size_t d, std::int32_t from, std::int32_t to) const {
    const auto begin = static_cast<std::size_t>(from + table_.durations[d]);
    return {begin, std::max(begin, static_cast<std::size_t>(std::max(to + 1, 0)))};
  }

  double term_by_term(std::int32_t from, std::int32_t to) const {
    double sum = 0;
    for (std::size_t d = 0; d < sums_.size(); ++d) {
      const auto [begin, end] = range(d, from, to);
      for (std::size_t t = begin; t < end; ++t) sum += table_.like[d][t];
    }
    return sum;
  }

  const Table& table_;
  std::size_t years_;
  std::vector<std::vector<double>> sums_, steps_, direct_;
  double whole_ = 0;
  std::size_t count_ = 0;
};

constexpr double kNever = -std::numeric_limits<double>::infinity();

/// A sum of logarithms from which terms can be taken out again, even such as are -infinity.
struct LogSum {
  double finite = 0;
  int never = 0;
  void add(double value) {
    if (value == kNever) {
      ++never;
    } else {
      finite += value;
    }
  }
  double without(double value) const {
    const bool was_never = value == kNever;
    return never - (was_never ? 1 : 0) > 0 ? kNever : finite - (was_never ? 0 : value);
  }
  double value() const { return never > 0 ? kNever : finite; }
};

/// Messages of a forest, as logarithms: from below about the year of beginning, from above about that of completion.
class Forest {
 public:
  explicit Forest(const Problem& problem)
      : problem_(problem),
        above_(problem.above()),
        begin_(problem.tables.size(), std::vector<LogSum>(problem.years)),
        end_(begin_) {
    arrange();
  }

  std::vector<Chances> run() {
    // Up to the roots, then down again.
    for (auto at = order_.rbegin(); at != order_.rend(); ++at) {
      if (parent_[*at] == kNoUnit) continue;
      messages_[*at] = message(*at, {}, false);
      take(*at, parent_[*at], messages_[*at]);
    }
    for (const std::uint32_t unit : order_) {
      if (parent_[unit] != kNoUnit) take(parent_[unit], unit, message(parent_[unit], messages_[unit], true, unit));
    }
    std::vector<Chances> out;
    for (std::uint32_t unit = 0; unit < problem_.tables.size(); ++unit) out.push_back(chances(unit));
    return out;
  }

 private:
  void arrange() {
    const std::size_t n = problem_.tables.size();
    parent_.assign(n, kNoUnit);
    messages_.resize(n);
    std::vector<bool> seen(n);
    for (std::uint32_t root = 0; root < n; ++root) {
      if (seen[root]) continue;
      seen[root] = true;
      order_.push_back(root);
      for (std::size_t i = order_.size() - 1; i < order_.size(); ++i) {
        const std::uint32_t unit = order_[i];
        for (const auto* near : {&problem_.below[unit], &std::as_const(above_[unit])}) {
          for (const std::uint32_t other : *near) {
            if (seen[other]) continue;
            seen[other] = true;
            parent_[other] = unit;
            order_.push_back(other);
          }
        }
      }
    }
  }

  bool is_below(std::uint32_t a, std::uint32_t b) const {
    return std::ranges::find(problem_.below[b], a) != problem_.below[b].end();
  }

  /// What `from` says to its parent, or to the child `to` that had sent `back`.
  std::vector<double> message(std::uint32_t from, const std::vector<double>& back, bool down,
                              std::uint32_t to = kNoUnit) const {
    const std::uint32_t target = down ? to : parent_[from];
    const bool upwards = is_below(from, target);  // the target lies above
    const std::size_t years = problem_.years;
    std::vector<double> log_states(years, kNever);  // by completion where upwards, else by beginning
    double most = kNever;
    const auto each = [&](const auto& f) {
      const Table& table = problem_.tables[from];
      for (std::size_t d = 0; d < table.durations.size(); ++d) {
        const auto open = static_cast<std::size_t>(table.durations[d]);
        for (std::size_t t = open; t < years; ++t) {
          if (table.like[d][t] <= 0) continue;
          const LogSum& begin = begin_[from][t - open];
          const LogSum& end = end_[from][t];
          double value = std::log(table.like[d][t]);
          // The target's own message is left out: it speaks about completion where the target lies above.
          value += down && !upwards ? begin.without(back[t - open]) : begin.value();
          value += down && upwards ? end.without(back[t]) : end.value();
          if (value != kNever) f(upwards ? t : t - open, value);
        }
      }
    };
    each([&](std::size_t, double value) { most = std::max(most, value); });
    std::vector<double> sums(years, 0);
    each([&](std::size_t at, double value) { sums[at] += std::exp(value - most); });
    if (upwards) {
      for (std::size_t i = 1; i < years; ++i) sums[i] += sums[i - 1];
    } else {
      for (std::size_t i = years - 1; i > 0; --i) sums[i - 1] += sums[i];
    }
    for (std::size_t i = 0; i < years; ++i) log_states[i] = std::log(sums[i]);
    return log_states;
  }

  void take(std::uint32_t from, std::uint32_t to, const std::vector<double>& message) {
    std::vector<LogSum>& sums = is_below(from, to) ? begin_[to] : end_[to];
    for (std::size_t i = 0; i < message.size(); ++i) sums[i].add(message[i]);
  }

  Chances chances(std::uint32_t unit) const {
    const Table& table = problem_.tables[unit];
    Chances out(table.durations.size(), std::vector<double>(problem_.years, kNever));
    double most = kNever;
    for (std::size_t d = 0; d < out.size(); ++d) {
      const auto open = static_cast<std::size_t>(table.durations[d]);
      for (std::size_t t = open; t < problem_.years; ++t) {
        if (table.like[d][t] <= 0) continue;
        out[d][t] = std::log(table.like[d][t]) + begin_[unit][t - open].value() + end_[unit][t].value();
        most = std::max(most, out[d][t]);
      }
    }
    double sum = 0;
    for (auto& row : out) {
      for (double& value : row) sum += value = std::exp(value - most);
    }
    for (auto& row : out) {
      for (double& value : row) value /= sum;
    }
    return out;
  }

  const Problem& problem_;
  std::vector<std::vector<std::uint32_t>> above_;
  std::vector<std::vector<LogSum>> begin_, end_;  ///< of each unit and year
  std::vector<std::uint32_t> order_, parent_;     ///< parents before their children
  std::vector<std::vector<double>> messages_;     ///< from each unit to its parent
};

}  // namespace

Chances marginal(const Problem& problem, const Boundaries& boundaries,
                 const std::vector<std::vector<std::uint32_t>>& above, const Draws& draws, std::uint32_t unit) {
  Mixture mixture(problem.tables[unit], problem.years);
  std::vector<std::size_t> alpha;
  std::vector<std::size_t> beta;
  for (std::size_t s = 0; s < problem.stretches.size(); ++s) {
    if (!std::ranges::binary_search(problem.stretches[s].units, unit)) continue;
    alpha.push_back(boundaries.alpha[s]);
    beta.push_back(boundaries.beta[s]);
  }
  for (std::size_t i = 0; i < draws.size(); ++i) {
    std::int32_t from = 0;
    auto to = static_cast<std::int32_t>(problem.years) - 1;
    for (const std::uint32_t other : problem.below[unit]) from = std::max(from, draws.completed(i, other));
    for (const std::uint32_t other : above[unit]) to = std::min(to, draws.began(i, other));
    for (const std::size_t k : alpha) from = std::max(from, draws.boundary(i, k));
    for (const std::size_t k : beta) to = std::min(to, draws.boundary(i, k));
    mixture.add(from, to);
  }
  return mixture.mean();
}

bool is_forest(const Problem& problem) {
  if (!problem.stretches.empty()) return false;
  std::vector<std::uint32_t> root(problem.tables.size());
  for (std::uint32_t unit = 0; unit < root.size(); ++unit) root[unit] = unit;
  const auto find = [&](std::uint32_t unit) {
    while (root[unit] != unit) unit = root[unit] = root[root[unit]];
    return unit;
  };
  for (std::uint32_t unit = 0; unit < root.size(); ++unit) {
    for (const std::uint32_t other : problem.below[unit]) {
      const std::uint32_t a = find(unit);
      const std::uint32_t b = find(other);
      if (a == b) return false;
      root[a] = b;
    }
  }
  return true;
}

std::vector<Chances> exact_marginals(const Problem& problem) { return Forest(problem).run(); }

}  // namespace sherd::stratigraphy
