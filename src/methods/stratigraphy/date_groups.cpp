#include "methods/stratigraphy/date_groups.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "methods/stratigraphy/breaking.h"

namespace sherd::stratigraphy {

namespace {

constexpr double kLeastGain = 1e-9;
constexpr double kLeastChance = 1e-300;
constexpr double kNegligible = 45;  // e^-45 of the greatest term adds nothing to a sum of doubles

using Curve = std::vector<double>;  // log of a product over the years

double log_sum(const Curve& a, const Curve* b) {
  double most = -std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < a.size(); ++i) most = std::max(most, b != nullptr ? a[i] + (*b)[i] : a[i]);
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const double less = (b != nullptr ? a[i] + (*b)[i] : a[i]) - most;
    if (less > -kNegligible) sum += std::exp(less);
  }
  return most + std::log(sum);
}

/// Merges kinds into groups step by step.
class Merging {
 public:
  Merging(const std::vector<VesselKind>& kinds, const SequenceSettings& settings) : kinds_(kinds), settings_(settings) {
    Years years{std::numeric_limits<std::int64_t>::max(), std::numeric_limits<std::int64_t>::min()};
    for (const VesselKind& kind : kinds) {
      const Making making = making_of(kind, settings);
      const auto length = static_cast<std::int64_t>(making.at.size());
      years.first = std::min(years.first, making.first);
      years.last = std::max(years.last, making.first + length - 1);
    }
    years.last += static_cast<std::int64_t>(std::ceil(10 * settings.kept_life));
    for (std::size_t k = 0; k < kinds.size(); ++k) add(k, years);
    for (std::size_t a = 0; a < groups_.size(); ++a) {
      for (std::size_t b = a + 1; b < groups_.size();) {
        const std::string& word = kinds_[groups_[a].kinds.front()].together;
        if (!word.empty() && kinds_[groups_[b].kinds.front()].together == word) {
          merge(a, b);
        } else {
          ++b;
        }
      }
    }
  }

  void run() {
    gains_.assign(groups_.size(), std::vector<double>(groups_.size(), 0));
    for (std::size_t a = 0; a < groups_.size(); ++a) {
      for (std::size_t b = a + 1; b < groups_.size(); ++b) gains_[a][b] = gain(a, b);
    }
    for (Pair best = best_pair(); best.gain > kLeastGain; best = best_pair()) {
      before_ = kinds_of_groups();
      last_gain_ = best.gain;
      join(best);
    }
    refused_ = best_pair();
  }

  std::vector<std::vector<std::size_t>> kinds_of_groups() const {
    std::vector<std::vector<std::size_t>> out;
    for (const Group& group : groups_) out.push_back(group.kinds);
    return out;
  }

  /// The grouping that a close call would have given, the closer of the two; none where both were clear.
  std::vector<std::vector<std::size_t>> otherwise() const {
    const double refused = std::abs(refused_.gain);
    if (!before_.empty() && last_gain_ < settings_.close_call && last_gain_ <= refused) return before_;
    if (refused >= settings_.close_call) return {};
    std::vector<std::vector<std::size_t>> out = kinds_of_groups();
    out[refused_.a].insert(out[refused_.a].end(), out[refused_.b].begin(), out[refused_.b].end());
    std::ranges::sort(out[refused_.a]);
    out.erase(out.begin() + static_cast<std::ptrdiff_t>(refused_.b));
    return out;
  }

 private:
  struct Group {
    std::vector<std::size_t> kinds;
    Curve curve;
    double measure = 0;
  };
  struct Pair {
    std::size_t a = 0, b = 0;
    double gain = -std::numeric_limits<double>::infinity();
  };

  void add(std::size_t k, Years years) {
    Curve curve = breaking_of(kinds_[k], years, settings_).at;
    if (kinds_[k].basis == DateBasis::deposited && kinds_[k].breaking.empty()) level(curve, years);
    for (double& value : curve)
      value = static_cast<double>(kinds_[k].vessels) * std::log(std::max(value, kLeastChance));
    const double measure = log_sum(curve, nullptr) - std::log(settings_.group_span);
    groups_.push_back({{k}, std::move(curve), measure});
  }

  /// The flat part of a range of deposition does not depend on the other kinds here.
  void level(Curve& curve, Years years) const {
    const double by_years = settings_.deposited_flat / static_cast<double>(years.size());
    for (double& value : curve) value += settings_.deposited_flat / settings_.group_span - by_years;
  }

  double gain(std::size_t a, std::size_t b) const {
    const VesselKind& first = kinds_[groups_[a].kinds.front()];
    const VesselKind& second = kinds_[groups_[b].kinds.front()];
    if (first.judged != second.judged || first.together != second.together)
      return -std::numeric_limits<double>::infinity();
    return log_sum(groups_[a].curve, &groups_[b].curve) - std::log(settings_.group_span) - groups_[a].measure -
           groups_[b].measure;
  }

  Pair best_pair() const {
    Pair best;
    for (std::size_t a = 0; a < groups_.size(); ++a) {
      for (std::size_t b = a + 1; b < groups_.size(); ++b) {
        if (gains_[a][b] > best.gain + kLeastGain) best = {a, b, gains_[a][b]};
      }
    }
    return best;
  }

  void merge(std::size_t a, std::size_t b) {
    Group& into = groups_[a];
    const Group& from = groups_[b];
    into.kinds.insert(into.kinds.end(), from.kinds.begin(), from.kinds.end());
    std::ranges::sort(into.kinds);
    for (std::size_t i = 0; i < into.curve.size(); ++i) into.curve[i] += from.curve[i];
    into.measure = log_sum(into.curve, nullptr) - std::log(settings_.group_span);
    groups_.erase(groups_.begin() + static_cast<std::ptrdiff_t>(b));
  }

  void join(const Pair& pair) {
    merge(pair.a, pair.b);
    gains_.erase(gains_.begin() + static_cast<std::ptrdiff_t>(pair.b));
    for (auto& row : gains_) row.erase(row.begin() + static_cast<std::ptrdiff_t>(pair.b));
    for (std::size_t other = 0; other < groups_.size(); ++other) {
      if (other == pair.a) continue;
      gains_[std::min(other, pair.a)][std::max(other, pair.a)] = gain(std::min(other, pair.a), std::max(other, pair.a));
    }
  }

  const std::vector<VesselKind>& kinds_;
  const SequenceSettings& settings_;
  std::vector<Group> groups_;
  std::vector<std::vector<double>> gains_;  ///< [a][b], a < b
  std::vector<std::vector<std::size_t>> before_;
  double last_gain_ = std::numeric_limits<double>::infinity();
  Pair refused_;
};

/// log of the odds for one vessel, all vessels of a kind together.
double log_odds(const VesselKind& kind, const SequenceSettings& settings) {
  return static_cast<double>(kind.fresh) * std::log(settings.odds_fresh) +
         static_cast<double>(kind.abraded) * std::log(settings.odds_abraded) +
         static_cast<double>(kind.heavily_abraded) * std::log(settings.odds_heavily_abraded);
}

DateGroup describe(std::vector<std::size_t> members, const std::vector<VesselKind>& kinds,
                   const SequenceSettings& settings) {
  DateGroup out{.kinds = std::move(members), .judged = {}};
  double odds = 0;
  for (const std::size_t k : out.kinds) {
    out.vessels += kinds[k].vessels;
    odds += log_odds(kinds[k], settings);
  }
  const auto n = static_cast<double>(out.vessels);
  out.weight = 1 / (1 + (n - 1) * settings.alike);
  if (settings.condition) out.residual_odds = std::exp(odds / n);
  out.judged = kinds[out.kinds.front()].judged;
  return out;
}

}  // namespace

DateGroups date_groups(const std::vector<VesselKind>& kinds, const SequenceSettings& settings) {
  DateGroups out;
  out.kinds = pooled(kinds);
  if (out.kinds.empty()) return out;
  Merging merging(out.kinds, settings);
  merging.run();
  for (auto& group : merging.kinds_of_groups()) out.groups.push_back(describe(std::move(group), out.kinds, settings));
  for (auto& group : merging.otherwise()) out.otherwise.push_back(describe(std::move(group), out.kinds, settings));
  return out;
}

}  // namespace sherd::stratigraphy
