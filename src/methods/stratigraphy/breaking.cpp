#include "methods/stratigraphy/breaking.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace sherd::stratigraphy {

namespace {

/// One end of a production curve: how far it reaches beyond the published year, and the years of its slope.
struct End {
  std::int64_t reach = 0;
  double slope = 1;
};

End end_of(const std::optional<Year>& full, std::int64_t end, bool exact, std::int64_t length, double shoulder) {
  if (full) return {0, static_cast<double>(std::abs(full->value - end) + 1)};
  if (exact) return {};
  const auto reach = std::min(static_cast<std::int64_t>(shoulder), length / 2);
  return {reach, static_cast<double>(2 * reach + 1)};
}

void normalise(std::vector<double>& values) {
  const double sum = std::accumulate(values.begin(), values.end(), 0.0);
  if (sum > 0) {
    for (double& value : values) value /= sum;
  }
}

Breaking deposited(const Making& making, Years years, double flat) {
  Breaking out{std::vector<double>(years.size(), flat / static_cast<double>(years.size())), {}};
  for (std::size_t i = 0; i < making.at.size(); ++i) {
    const std::int64_t year = making.first + static_cast<std::int64_t>(i);
    if (year < years.first || year > years.last) continue;
    out.at[static_cast<std::size_t>(year - years.first)] += (1 - flat) * making.at[i];
  }
  out.kept.assign(years.size(), 0);
  return out;
}

}  // namespace

KindKey key_of(const VesselKind& kind) {
  return {kind.earliest.value,
          kind.latest.value,
          kind.full_from,
          kind.full_to,
          kind.exact_start,
          kind.exact_end,
          kind.basis == DateBasis::deposited,
          kind.use_life,
          kind.judged,
          kind.together,
          kind.breaking};
}

std::vector<VesselKind> pooled(const std::vector<VesselKind>& kinds) {
  std::map<KindKey, VesselKind> by_key;
  for (const VesselKind& kind : kinds) {
    if (kind.vessels <= 0) continue;
    const auto [at, fresh] = by_key.try_emplace(key_of(kind), kind);
    if (fresh) continue;
    VesselKind& sum = at->second;
    sum.vessels += kind.vessels;
    sum.fresh += kind.fresh;
    sum.abraded += kind.abraded;
    sum.heavily_abraded += kind.heavily_abraded;
    sum.records.insert(sum.records.end(), kind.records.begin(), kind.records.end());
    if (kind.name != sum.name && !kind.name.empty()) sum.name += sum.name.empty() ? kind.name : ", " + kind.name;
  }
  std::vector<VesselKind> out;
  for (auto& [key, kind] : by_key) out.push_back(std::move(kind));
  return out;
}

Making making_of(const VesselKind& kind, const SequenceSettings& settings) {
  if (!kind.breaking.empty()) {
    Making own{kind.earliest.value, kind.breaking};
    normalise(own.at);
    return own;
  }
  const std::int64_t length = kind.latest.value - kind.earliest.value;
  const End from = end_of(kind.full_from, kind.earliest.value, kind.exact_start, length, settings.shoulder);
  const End to = end_of(kind.full_to, kind.latest.value, kind.exact_end, length, settings.shoulder);
  Making out{kind.earliest.value - from.reach, {}};
  const std::int64_t last = kind.latest.value + to.reach;
  for (std::int64_t m = out.first; m <= last; ++m) {
    const double rising = static_cast<double>(m - out.first + 1) / from.slope;
    const double falling = static_cast<double>(last - m + 1) / to.slope;
    out.at.push_back(std::min({1.0, rising, falling}));
  }
  normalise(out.at);
  return out;
}

Breaking breaking_of(const VesselKind& kind, Years years, const SequenceSettings& settings) {
  const Making making = making_of(kind, settings);
  if (!kind.breaking.empty()) return deposited(making, years, 0);
  if (kind.basis == DateBasis::deposited) return deposited(making, years, settings.deposited_flat);
  const double life = kind.use_life.value_or(settings.use_life);
  const double q = life / (1 + life);
  const double q_kept = settings.kept_life / (1 + settings.kept_life);
  Breaking out{std::vector<double>(years.size(), 0), std::vector<double>(years.size(), 0)};
  double used = 0;
  double kept = 0;
  for (std::int64_t v = std::min(making.first, years.last); v <= years.last; ++v) {
    const auto m = static_cast<std::size_t>(v - making.first);
    const double made = v >= making.first && m < making.at.size() ? making.at[m] : 0;
    used = q * used + (1 - settings.kept_share) * (1 - q) * made;
    kept = q_kept * kept + settings.kept_share * (1 - q_kept) * made;
    if (v < years.first) continue;
    const auto i = static_cast<std::size_t>(v - years.first);
    out.at[i] = used + kept;
    out.kept[i] = kept;
  }
  return out;
}

}  // namespace sherd::stratigraphy
