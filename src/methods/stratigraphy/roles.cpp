#include <algorithm>
#include <cmath>
#include <limits>

#include "methods/stratigraphy/laid_down.h"

namespace sherd::stratigraphy {

namespace {

constexpr double kNever = -std::numeric_limits<double>::infinity();
constexpr std::size_t kLooked = 128;  // cells, each for the same part of the chances

/// The cells at the middles of so many equal parts of the chances, duration by duration: [place of duration, year].
std::vector<std::pair<std::size_t, std::size_t>> representative(const Cells& chances) {
  double whole = 0;
  for (const auto& row : chances) {
    for (const double chance : row) whole += chance;
  }
  std::vector<std::pair<std::size_t, std::size_t>> out;
  double sum = 0;
  for (std::size_t d = 0; d < chances.size(); ++d) {
    for (std::size_t t = 0; t < chances[d].size(); ++t) {
      sum += chances[d][t];
      while (out.size() < kLooked &&
             sum * static_cast<double>(kLooked) > (static_cast<double>(out.size()) + 0.5) * whole)
        out.emplace_back(d, t);
    }
  }
  return out;
}

}  // namespace

/// Sums over the sources of one cell, relative to the greatest weight so far.
struct ContextEvidence::Tally {
  explicit Tally(std::size_t groups) : own(groups), residual(groups), intrusive(groups), all(groups) {}

  void clear() {
    reference = kNever;
    for (auto* sums : {&own, &residual, &intrusive}) std::ranges::fill(*sums, 0.0);
  }
  /// The factor of a term of this weight.
  double factor(double log_weight) {
    if (log_weight <= reference) return std::exp(log_weight - reference);
    const double shrink = reference == kNever ? 0 : std::exp(reference - log_weight);
    for (auto* sums : {&own, &residual, &intrusive}) {
      for (double& sum : *sums) sum *= shrink;
    }
    reference = log_weight;
    return 1;
  }
  double total() const { return own.front() + residual.front() + intrusive.front(); }

  double reference = kNever;
  std::vector<double> own, residual, intrusive;
  std::vector<Nodes> all;  ///< room for x A + y B + e I
};

void ContextEvidence::add_source(std::size_t d, double log_weight, const Work& work, Tally& tally) const {
  const std::size_t n = curves_.size();
  const double factor = tally.factor(log_weight + work.scales);
  for (std::size_t g = 0; g < n; ++g) {
    for (std::size_t j = 0; j < nodes_; ++j) tally.all[g][j] = work.base[g][j] + curves_[g].x[j] * work.own[g][d];
  }
  for (std::size_t g = 0; g < n; ++g) {
    Nodes all;
    Nodes none;
    all.fill(1);
    none.fill(1);
    for (std::size_t h = 0; h < n; ++h) {
      if (h == g) continue;
      for (std::size_t j = 0; j < nodes_; ++j) {
        all[j] *= tally.all[h][j];
        none[j] *= work.base[h][j];
      }
    }
    for (std::size_t j = 0; j < nodes_; ++j) {
      const double other = all_.some_own[j] * std::max(0.0, all[j] - none[j]) + all_.none[j] * none[j];
      tally.own[g] += factor * all_.some_own[j] * curves_[g].x[j] * work.own[g][d] * all[j];
      tally.residual[g] += factor * curves_[g].y[j] * work.residual[g] * other;
      tally.intrusive[g] += factor * work.intrusive[g] * other;
    }
  }
}

/// Of the chance that a vessel of the kind broke while the context was open, the part of the long-kept ones.
double ContextEvidence::kept_share(std::size_t kind, std::size_t t, std::int64_t duration) const {
  const auto open = static_cast<std::size_t>(duration);
  const std::size_t begin = t > open ? t - open : 0;
  const double all = broke(kind, t, duration) * static_cast<double>(t - begin + 1);
  const double kept = sums_[kind].kept_to[t + 1] - sums_[kind].kept_to[begin];
  return all > 0 ? std::clamp(kept / all, 0.0, 1.0) : 0;
}

std::vector<GroupRole> ContextEvidence::roles(const Cells& chances) const {
  std::vector<GroupRole> out(curves_.size());
  if (curves_.empty()) return out;
  for (std::size_t g = 0; g < out.size(); ++g) out[g].kept_long.assign(groups_.groups[g].kinds.size(), 0);
  Work work(curves_.size(), belief_.durations.size());
  Tally tally(curves_.size());
  std::vector<Source> from;
  double looked = 0;
  for (const auto& [d, t] : representative(chances)) {
    tally.clear();
    sources(t, from);
    for (const auto& [s, log_weight] : from) {
      if (set(t, s, all_, work)) add_source(d, log_weight, work, tally);
    }
    const double total = tally.total();
    if (!(total > 0)) continue;
    ++looked;
    for (std::size_t g = 0; g < out.size(); ++g) {
      GroupRole& role = out[g];
      const double own = tally.own[g] / total;
      role.own += own;
      role.residual += tally.residual[g] / total;
      role.intrusive += tally.intrusive[g] / total;
      for (std::size_t k = 0; k < role.kept_long.size() && own > 0; ++k)
        role.kept_long[k] += own * kept_share(groups_.groups[g].kinds[k], t, belief_.durations[d]);
    }
  }
  for (GroupRole& role : out) {
    for (double& kept : role.kept_long) kept = role.own > 0 ? kept / role.own : 0;
    for (double* share : {&role.own, &role.residual, &role.intrusive}) *share = looked > 0 ? *share / looked : 0;
  }
  return out;
}

}  // namespace sherd::stratigraphy
