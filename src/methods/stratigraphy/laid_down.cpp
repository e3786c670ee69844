#include "methods/stratigraphy/laid_down.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "methods/stratigraphy/quadrature.h"

namespace sherd::stratigraphy {

namespace {

constexpr double kNever = -std::numeric_limits<double>::infinity();

double log_add(double a, double b) {
  if (a < b) std::swap(a, b);
  return b == kNever ? a : a + std::log1p(std::exp(b - a));
}

/// A sum of terms that are given by their logarithms, each kept relative to the greatest so far.
class RunningSum {
 public:
  void fade(double by) { sum_ *= by; }
  void add(double log_term) {
    if (log_term == kNever) return;
    if (log_term > most_) {
      sum_ *= most_ == kNever ? 0 : std::exp(most_ - log_term);
      most_ = log_term;
    }
    sum_ += std::exp(log_term - most_);
  }
  /// log of sum / by
  double log_over(double by) const { return sum_ > 0 ? most_ + std::log(sum_ / by) : kNever; }

 private:
  double sum_ = 0, most_ = kNever;
};

}  // namespace

Belief belief_of(Deposit deposit, Integrity integrity, const SequenceSettings& settings) {
  const DepositBelief& base = settings.belief(deposit);
  Belief out{base.residual_a, base.residual_b, base.intrusive, base.none_own, {}, {}};
  if (integrity == Integrity::sealed) out.intrusive *= settings.sealed;
  if (integrity == Integrity::disturbed)
    out.intrusive = std::max(base.intrusive, std::min(settings.most_intrusive, base.intrusive * settings.disturbed));
  const bool only_order = deposit == Deposit::cut || deposit == Deposit::structure;
  double sum = 0;
  for (std::size_t d = 0; d < settings.durations.size(); ++d) {
    const double weight =
        only_order ? (settings.durations[d] == 0 ? 1 : 0) : (d < base.durations.size() ? base.durations[d] : 0);
    if (weight <= 0) continue;
    out.durations.push_back(settings.durations[d]);
    out.weights.push_back(weight);
    sum += weight;
  }
  if (out.durations.empty()) {
    out.durations = {0};
    out.weights = {1};
    sum = 1;
  }
  for (double& weight : out.weights) weight /= sum;
  return out;
}

ContextEvidence::Work::Work(std::size_t groups, std::size_t durations)
    : base(groups), own(groups, std::vector<double>(durations)), residual(groups), intrusive(groups), scale(groups) {}

ContextEvidence::ContextEvidence(const DateGroups& groups, Belief belief, Years years, const SequenceSettings& settings)
    : groups_(groups), belief_(std::move(belief)), years_(years), settings_(settings) {
  for (const VesselKind& kind : groups.kinds) {
    const Breaking breaking = breaking_of(kind, years, settings);
    const std::size_t n = years.size();
    Sums sums{std::vector<double>(n + 1, 0), std::vector<double>(n + 1, 0), std::vector<double>(n + 1, 0)};
    std::vector<double> logs(n);
    for (std::size_t i = 0; i < n; ++i) {
      sums.to[i + 1] = sums.to[i] + breaking.at[i];
      sums.kept_to[i + 1] = sums.kept_to[i] + breaking.kept[i];
      logs[i] = std::log(breaking.at[i]);
    }
    for (std::size_t i = n; i > 0; --i) sums.from[i - 1] = sums.from[i] + breaking.at[i - 1];
    sums_.push_back(std::move(sums));
    log_broke_.push_back(std::move(logs));
  }
  for (const DateGroup& group : groups.groups) {
    Curves curves;
    for (const std::int64_t duration : belief_.durations) curves.own.push_back(own(group, duration));
    const std::vector<double> broke = own(group, 0);  // all its vessels in the same year
    curves.residual = residual(broke);
    curves.intrusive = intrusive(broke, group.vessels);
    const std::vector<double> never(years.size(), kNever);
    if (group.judged && *group.judged != Judgement::own) std::ranges::fill(curves.own, never);
    if (group.judged && *group.judged != Judgement::residual) curves.residual = never;
    if (group.judged && *group.judged != Judgement::intrusive) curves.intrusive = never;
    if (belief_.intrusive <= 0) curves.intrusive = never;
    curves_.push_back(std::move(curves));
  }
  set_nodes(
      std::clamp<std::size_t>(static_cast<std::size_t>(std::max<std::int64_t>(2, settings.nodes)), 2, kMostNodes));
}

void ContextEvidence::set_nodes(std::size_t count) {
  nodes_ = count;
  const Quadrature rule = gauss_legendre(count);
  double sum = 0;
  for (std::size_t j = 0; j < count; ++j) {
    share_[j] = rule.points[j];
    weight_[j] = rule.weights[j] * std::pow(rule.points[j], belief_.residual_a - 1) *
                 std::pow(1 - rule.points[j], belief_.residual_b - 1);
    sum += weight_[j];
  }
  for (std::size_t j = 0; j < count; ++j) weight_[j] /= sum;
  for (std::size_t g = 0; g < curves_.size(); ++g) set_priors(groups_.groups[g], curves_[g]);
  all_ = mix_without(kNone);
}

ContextEvidence::Mix ContextEvidence::mix_without(std::size_t group) const {
  Mix out{group};
  for (std::size_t j = 0; j < nodes_; ++j) {
    double none = 1;
    for (std::size_t g = 0; g < curves_.size(); ++g) none *= g == group ? 1 : 1 - curves_[g].x[j];
    out.some_own[j] = weight_[j] * (1 - belief_.none_own) / (1 - none);
    out.none[j] = weight_[j] * belief_.none_own / none;
  }
  return out;
}

void ContextEvidence::set_priors(const DateGroup& group, Curves& curves) const {
  for (std::size_t j = 0; j < nodes_; ++j) {
    const double r = share_[j];
    const double sum = (1 - r) + r * group.residual_odds;
    curves.x[j] = (1 - belief_.intrusive) * (1 - r) / sum;
    curves.y[j] = (1 - belief_.intrusive) * r * group.residual_odds / sum;
  }
}

/// The chance that a vessel of the kind broke in one given year of those in which the context was open, their mean.
double ContextEvidence::broke(std::size_t kind, std::size_t t, std::int64_t duration) const {
  const auto open = static_cast<std::size_t>(duration);
  const std::size_t begin = t > open ? t - open : 0;
  const Sums& sums = sums_[kind];
  // The tail that is the shorter one loses no digits.
  const double sum =
      sums.to[begin] <= sums.from[t + 1] ? sums.to[t + 1] - sums.to[begin] : sums.from[begin] - sums.from[t + 1];
  return std::max(0.0, sum) / static_cast<double>(t - begin + 1);
}

std::vector<double> ContextEvidence::own(const DateGroup& group, std::int64_t duration) const {
  std::vector<double> out(years_.size(), 0);
  for (const std::size_t kind : group.kinds) {
    const double exponent = static_cast<double>(groups_.kinds[kind].vessels) * group.weight;
    for (std::size_t t = 0; t < out.size(); ++t) {
      out[t] += exponent * (duration == 0 ? log_broke_[kind][t] : std::log(broke(kind, t, duration)));
    }
  }
  return out;
}

std::vector<double> ContextEvidence::residual(const std::vector<double>& broke) const {
  const double q = settings_.recent_mean / (1 + settings_.recent_mean);
  std::vector<double> out(broke.size(), kNever);
  RunningSum flat;
  RunningSum recent;
  double recent_weight = 0;
  for (std::size_t s = 0; s < broke.size(); ++s) {
    recent.fade(q);
    recent_weight = q * recent_weight + 1;
    flat.add(broke[s]);
    recent.add(broke[s]);
    out[s] = log_add(std::log(1 - settings_.recent_share) + flat.log_over(static_cast<double>(s + 1)),
                     std::log(settings_.recent_share) + recent.log_over(recent_weight));
  }
  return out;
}

std::vector<double> ContextEvidence::intrusive(const std::vector<double>& broke, std::int64_t vessels) const {
  std::vector<double> out(broke.size(), kNever);
  const double size =
      std::log(1 - settings_.intrusive_size) + static_cast<double>(vessels - 1) * std::log(settings_.intrusive_size);
  RunningSum later;
  for (std::size_t t = broke.size() - 1; t > 0; --t) {
    later.add(broke[t]);
    out[t - 1] = size + later.log_over(static_cast<double>(broke.size() - t));
  }
  return out;
}

/// Sources that brought nothing of any group say all the same; they are taken together.
void ContextEvidence::sources(std::size_t t, std::vector<Source>& out) const {
  out.clear();
  const auto step = static_cast<std::size_t>(std::max(1.0, settings_.source_step));
  const std::size_t earlier = t / step;
  out.emplace_back(t, earlier == 0 ? 0 : std::log(settings_.source_now));
  if (earlier == 0 || settings_.source_now >= 1) return;
  const double each = (1 - settings_.source_now) / static_cast<double>(earlier);
  std::size_t empty = 0;
  for (std::size_t j = 1; j <= earlier; ++j) {
    const bool nothing = std::ranges::all_of(curves_, [&](const Curves& c) { return c.residual[j * step] == kNever; });
    empty = nothing ? j : empty;
    if (!nothing) out.emplace_back(j * step, std::log(each));
  }
  if (empty > 0) out.emplace_back(empty * step, std::log(each * static_cast<double>(empty)));
}

/// False where the groups cannot all be explained.
bool ContextEvidence::set(std::size_t t, std::size_t s, const Mix& mix, Work& work) const {
  work.scales = 0;
  work.none.fill(1);
  for (std::size_t g = 0; g < curves_.size(); ++g) {
    if (g == mix.skip) continue;
    const Curves& curves = curves_[g];
    double scale = std::max(curves.residual[s], curves.intrusive[t]);
    for (const auto& own : curves.own) scale = std::max(scale, own[t]);
    if (scale == kNever) return false;
    work.scale[g] = scale;
    work.scales += scale;
    const double b = work.residual[g] = std::exp(curves.residual[s] - scale);
    const double i = work.intrusive[g] = belief_.intrusive * std::exp(curves.intrusive[t] - scale);
    for (std::size_t d = 0; d < curves.own.size(); ++d) work.own[g][d] = std::exp(curves.own[d][t] - scale);
    Nodes& base = work.base[g];
    for (std::size_t j = 0; j < nodes_; ++j) {
      base[j] = curves.y[j] * b + i;
      work.none[j] *= base[j];
    }
  }
  return true;
}

/// F of the specification, without the scales that were taken out.
double ContextEvidence::value(std::size_t d, const Mix& mix, const Work& work) const {
  Nodes all;
  all.fill(1);
  for (std::size_t g = 0; g < curves_.size(); ++g) {
    if (g == mix.skip) continue;
    const double a = work.own[g][d];
    const Nodes& x = curves_[g].x;
    const Nodes& base = work.base[g];
    for (std::size_t j = 0; j < nodes_; ++j) all[j] *= base[j] + x[j] * a;
  }
  const Nodes& none = work.none;
  double sum = 0;
  for (std::size_t j = 0; j < nodes_; ++j)
    sum += mix.some_own[j] * std::max(0.0, all[j] - none[j]) + mix.none[j] * none[j];
  return sum;
}

Cells ContextEvidence::log_like_without(std::size_t group) const {
  constexpr std::size_t kStep = 10;
  return log_like(mix_without(group), kStep);
}

Cells ContextEvidence::log_like(const Mix& mix, std::size_t step) const {
  Cells out(belief_.durations.size(), std::vector<double>(years_.size(), kNever));
  const std::size_t left = curves_.size() - (mix.skip < curves_.size() ? 1 : 0);
  if (left == 0) {
    for (std::size_t d = 0; d < out.size(); ++d) std::ranges::fill(out[d], std::log(belief_.weights[d]));
    return out;
  }
  Work work(curves_.size(), belief_.durations.size());
  std::vector<Source> from;
  std::size_t before = 0;
  for (std::size_t t = 0; t < years_.size();
       t = t + 1 == years_.size() ? t + 1 : std::min(t + step, years_.size() - 1)) {
    sources(t, from);
    for (const auto& [s, log_weight] : from) {
      if (!set(t, s, mix, work)) continue;
      for (std::size_t d = 0; d < out.size(); ++d) {
        const double f = value(d, mix, work);
        if (f > 0) out[d][t] = log_add(out[d][t], log_weight + work.scales + std::log(f));
      }
    }
    for (std::size_t d = 0; d < out.size(); ++d) {
      out[d][t] += std::log(belief_.weights[d]);
      for (std::size_t between = before + 1; between < t; ++between) {
        const double share = static_cast<double>(between - before) / static_cast<double>(t - before);
        out[d][between] =
            out[d][before] == kNever || out[d][t] == kNever ? kNever : (1 - share) * out[d][before] + share * out[d][t];
      }
    }
    before = t;
  }
  return out;
}

}  // namespace sherd::stratigraphy
