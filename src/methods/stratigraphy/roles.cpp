#include <algorithm>
#include <cmath>
#include <limits>

#include "methods/stratigraphy/laid_down.h"

namespace sherd::stratigraphy {

namespace {

constexpr double kNever = -std::numeric_limits<double>::infinity();
constexpr double kTooRare = 1e-6;  // cells rarer than this, against the commonest, are left out of the shares

double log_add(double a, double b) {
  if (a < b) std::swap(a, b);
  return b == kNever ? a : a + std::log1p(std::exp(b - a));
}

}  // namespace

/// Sums over the sources of one cell, relative to the greatest weight so far.
struct ContextEvidence::Tally {
  explicit Tally(std::size_t groups) : own(groups), residual(groups), intrusive(groups), without(groups), all(groups) {}

  void clear() {
    reference = kNever;
    for (auto* sums : {&own, &residual, &intrusive}) std::ranges::fill(*sums, 0.0);
    std::ranges::fill(without, kNever);
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
  std::vector<double> without;  ///< logarithms of the likelihood without the group
  std::vector<Nodes> all;       ///< room for x A + y B + e I
  bool wants_without = false;
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
      const double other = some_own_[j] * std::max(0.0, all[j] - none[j]) + none_[j] * none[j];
      tally.own[g] += factor * some_own_[j] * curves_[g].x[j] * work.own[g][d] * all[j];
      tally.residual[g] += factor * curves_[g].y[j] * work.residual[g] * other;
      tally.intrusive[g] += factor * work.intrusive[g] * other;
    }
    if (tally.wants_without) add_without(g, log_weight, work, tally, all, none);
  }
}

void ContextEvidence::add_without(std::size_t g, double log_weight, const Work& work, Tally& tally, const Nodes& all,
                                  const Nodes& none) const {
  double sum = curves_.size() == 1 ? 1 : 0;
  for (std::size_t j = 0; j < nodes_ && curves_.size() > 1; ++j) {
    double prior = 1;
    for (std::size_t h = 0; h < curves_.size(); ++h) prior *= h == g ? 1 : 1 - curves_[h].x[j];
    sum += weight_[j] * ((1 - belief_.none_own) * std::max(0.0, all[j] - none[j]) / (1 - prior) +
                         belief_.none_own * none[j] / prior);
  }
  if (sum > 0) tally.without[g] = log_add(tally.without[g], log_weight + work.scales - work.scale[g] + std::log(sum));
}

/// Of the chance that a vessel of the kind broke while the context was open, the part of the long-kept ones.
double ContextEvidence::kept_share(std::size_t kind, std::size_t t, std::int64_t duration) const {
  const auto open = static_cast<std::size_t>(duration);
  const std::size_t begin = t > open ? t - open : 0;
  const double all = broke(kind, t, duration) * static_cast<double>(t - begin + 1);
  const double kept = sums_[kind].kept_to[t + 1] - sums_[kind].kept_to[begin];
  return all > 0 ? std::clamp(kept / all, 0.0, 1.0) : 0;
}

std::vector<GroupRole> ContextEvidence::roles(const Cells& chances, bool without) const {
  std::vector<GroupRole> out(curves_.size());
  if (curves_.empty()) return out;
  double most = 0;
  for (const auto& row : chances) most = std::max(most, *std::ranges::max_element(row));
  Work work(curves_.size(), belief_.durations.size());
  Tally tally(curves_.size());
  tally.wants_without = without;
  std::vector<Source> from;
  std::vector<std::vector<double>> log_without(out.size(), std::vector<double>(years_.size(), kNever));
  double sum = 0;
  for (std::size_t g = 0; g < out.size(); ++g) out[g].kept_long.assign(groups_.groups[g].kinds.size(), 0);
  for (std::size_t d = 0; d < chances.size(); ++d) {
    for (std::size_t t = 0; t < years_.size(); ++t) {
      const double chance = chances[d][t];
      if (chance <= kTooRare * most) continue;
      tally.clear();
      sources(t, from);
      for (const auto& [s, log_weight] : from) {
        if (set(t, s, work)) add_source(d, log_weight, work, tally);
      }
      const double total = tally.total();
      if (!(total > 0)) continue;
      sum += chance;
      for (std::size_t g = 0; g < out.size(); ++g) {
        GroupRole& role = out[g];
        const double own = chance * tally.own[g] / total;
        role.own += own;
        role.residual += chance * tally.residual[g] / total;
        role.intrusive += chance * tally.intrusive[g] / total;
        for (std::size_t k = 0; k < role.kept_long.size() && own > 0; ++k)
          role.kept_long[k] += own * kept_share(groups_.groups[g].kinds[k], t, belief_.durations[d]);
        if (without)
          log_without[g][t] =
              log_add(log_without[g][t], std::log(chance) + tally.without[g] - tally.reference - std::log(total));
      }
    }
  }
  for (std::size_t g = 0; g < out.size() && sum > 0; ++g) {
    GroupRole& role = out[g];
    for (double& kept : role.kept_long) kept = role.own > 0 ? kept / role.own : 0;
    for (double* share : {&role.own, &role.residual, &role.intrusive}) *share /= sum;
    if (!without) continue;
    const double highest = *std::ranges::max_element(log_without[g]);
    double all = 0;
    for (double& value : log_without[g]) all += value = highest == kNever ? 0 : std::exp(value - highest);
    for (double& value : log_without[g]) value = all > 0 ? value / all : 0;
    role.without = std::move(log_without[g]);
  }
  return out;
}

}  // namespace sherd::stratigraphy
