#include "methods/compare/key_groups.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/numbers.h"

namespace sherd::compare {

namespace {

constexpr double kHalfYears = 50;  // a range of so many years is worth half

struct Most {
  double vessels = 0, sherds = 0, completeness = 0;
  bool by_vessels = true;  // every group has its vessels counted
};

Most most_of(const std::vector<KeyGroupFacts>& groups) {
  Most most;
  for (const KeyGroupFacts& group : groups) {
    most.sherds = std::max(most.sherds, static_cast<double>(group.sherds));
    most.vessels = std::max(most.vessels, group.vessels.value_or(0));
    most.completeness = std::max(most.completeness, group.completeness.value_or(0));
    most.by_vessels = most.by_vessels && group.vessels;
  }
  return most;
}

std::optional<double> freshness(const KeyGroupFacts& group, double site_mean) {
  std::optional<double> weight;
  if (group.mean_weight_g && *group.mean_weight_g + site_mean > 0)
    weight = *group.mean_weight_g / (*group.mean_weight_g + site_mean);
  if (!group.abraded_share) return weight;
  return weight ? (*weight + 1 - *group.abraded_share) / 2 : 1 - *group.abraded_share;
}

std::array<std::optional<double>, 5> scores_of(const KeyGroupFacts& group, const Most& most, double site_mean) {
  std::array<std::optional<double>, 5> out;
  const double n = most.by_vessels ? *group.vessels : static_cast<double>(group.sherds);
  const double largest = most.by_vessels ? most.vessels : most.sherds;
  out[0] = largest > 0 ? std::log1p(n) / std::log1p(largest) : 0.0;
  out[1] = freshness(group, site_mean);
  if (group.completeness && most.completeness > 0) out[2] = *group.completeness / most.completeness;
  if (group.residual_share) out[3] = 1 - *group.residual_share;
  if (group.years) out[4] = kHalfYears / (kHalfYears + *group.years);
  return out;
}

KeyGroup scored(const KeyGroupFacts& group, const Most& most, double site_mean, const KeyGroupSettings& settings) {
  const auto scores = scores_of(group, most, site_mean);
  KeyGroup out{.label = group.label,
               .sherds = group.sherds,
               .vessels = group.vessels,
               .mean_weight_g = group.mean_weight_g,
               .abraded_share = group.abraded_share,
               .completeness = group.completeness,
               .residual_share = group.residual_share,
               .years = group.years,
               .size_score = scores[0],
               .freshness_score = scores[1],
               .completeness_score = scores[2],
               .residual_score = scores[3],
               .dating_score = scores[4],
               .missing = {}};
  double weights = 0;
  for (std::size_t i = 0; i < scores.size(); ++i) {
    weights += settings.weights[i];
    out.score += settings.weights[i] * scores[i].value_or(0);
    if (!scores[i] && settings.weights[i] > 0) out.missing.emplace_back(kKeyMerits[i]);
  }
  out.score /= weights;
  return out;
}

Result<void> check(const KeyGroupSettings& settings) {
  double sum = 0;
  for (std::size_t i = 0; i < settings.weights.size(); ++i) {
    const double weight = settings.weights[i];
    if (!std::isfinite(weight) || weight < 0) {
      return fail(ErrorKind::usage, "bad_weight", fmt::format("{} cannot weigh {}", kKeyMerits[i], weight),
                  "give a number of 0 and above");
    }
    sum += weight;
  }
  if (sum > 0) return {};
  return fail(ErrorKind::usage, "bad_weight", "every weight is 0", "let something count");
}

}  // namespace

Result<KeyGroups> key_groups(std::vector<KeyGroupFacts> groups, double site_mean_weight_g,
                             const KeyGroupSettings& settings) {
  SHERD_CHECK(check(settings));
  if (groups.empty())
    return fail("too_few_groups", "there are no groups to rank", "choose other lines, or another field");
  KeyGroups out{.ranked = {}, .weights = {}, .site_mean_weight_g = site_mean_weight_g};
  for (std::size_t i = 0; i < kKeyMerits.size(); ++i)
    out.weights[std::string(kKeyMerits[i])] = format_double(settings.weights[i]);
  const Most most = most_of(groups);
  for (const KeyGroupFacts& group : groups) out.ranked.push_back(scored(group, most, site_mean_weight_g, settings));
  std::ranges::stable_sort(out.ranked, std::greater{}, &KeyGroup::score);
  for (std::size_t i = 0; i < out.ranked.size(); ++i) {
    const bool tied = i > 0 && out.ranked[i].score == out.ranked[i - 1].score;
    out.ranked[i].rank = tied ? out.ranked[i - 1].rank : static_cast<std::int64_t>(i) + 1;
  }
  return out;
}

}  // namespace sherd::compare
