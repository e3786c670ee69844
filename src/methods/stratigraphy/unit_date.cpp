#include "methods/stratigraphy/unit_date.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace sherd::stratigraphy {

namespace {

/// No state that is possible at all is less likely than this against the most likely one, so that products stay within
/// the range of numbers.
constexpr double kLeastLike = 1e-290;

Cells log_like_of(const DateGroups& groups, const Belief& belief, Years years, const SequenceSettings& settings) {
  return ContextEvidence(groups, belief, years, settings).log_like();
}

Table table_of(const Cells& log_like, const std::vector<std::int64_t>& durations, std::int64_t first,
               std::int64_t last) {
  Table out{durations, Cells(log_like.size(), std::vector<double>(log_like.front().size(), 0))};
  const auto each = [&](const auto& f) {
    for (std::size_t d = 0; d < log_like.size(); ++d) {
      const std::int64_t end = std::min(last, static_cast<std::int64_t>(log_like[d].size()) - 1);
      for (std::int64_t t = first + durations[d]; t <= end; ++t)
        f(log_like[d][static_cast<std::size_t>(t)], out.like[d][static_cast<std::size_t>(t)]);
    }
  };
  double most = -std::numeric_limits<double>::infinity();
  each([&](double log_value, double&) { most = std::max(most, log_value); });
  if (!std::isfinite(most)) return out;
  each([&](double log_value, double& like) {
    if (std::isfinite(log_value)) like = std::max(kLeastLike, std::exp(log_value - most));
  });
  return out;
}

std::optional<Year> terminus_of(const std::vector<VesselKind>& kinds) {
  std::optional<Year> out;
  for (const VesselKind& kind : kinds) {
    if (kind.vessels > 0 && kind.judged != Judgement::intrusive && (!out || kind.earliest > *out)) out = kind.earliest;
  }
  return out;
}

Year latest_of(const VesselKind& kind) {
  return kind.breaking.empty() ? kind.latest
                               : Year{kind.earliest.value + static_cast<std::int64_t>(kind.breaking.size()) - 1};
}

GroupDate group_date(const DateGroup& group, const std::vector<VesselKind>& kinds, const GroupRole* role) {
  GroupDate out;
  out.vessels = group.vessels;
  out.judged = group.judged;
  for (std::size_t i = 0; i < group.kinds.size(); ++i) {
    const VesselKind& kind = kinds[group.kinds[i]];
    const Year latest = latest_of(kind);
    out.earliest = out.earliest ? std::min(*out.earliest, kind.earliest) : kind.earliest;
    out.latest = out.latest ? std::max(*out.latest, latest) : latest;
    out.kinds.push_back({.name = kind.name,
                         .earliest = kind.earliest,
                         .latest = latest,
                         .vessels = kind.vessels,
                         .old_when_discarded = role == nullptr ? 0 : role->kept_long[i],
                         .records = kind.records});
  }
  if (role != nullptr) {
    out.own = role->own;
    out.residual = role->residual;
    out.intrusive = role->intrusive;
  }
  return out;
}

/// The median if a group were not there: what the sequence says, taken apart from the pottery, with the rest of it.
std::int64_t median_without(const Cells& without, const Chances& states, const Cells& like, Years years) {
  Cells logs = without;
  for (std::size_t d = 0; d < logs.size(); ++d) {
    for (std::size_t t = 0; t < logs[d].size(); ++t)
      logs[d][t] +=
          states[d][t] > 0 ? std::log(states[d][t]) - std::log(like[d][t]) : -std::numeric_limits<double>::infinity();
  }
  return median_of(completed_chances(chances_of(logs)), years);
}

/// What all contexts of a unit have in common. `like`: the table of the unit.
ContextDate common(const SiteUnit& unit, const UnitEvidence& evidence, const Chances& states, const Cells& like,
                   const SiteModel& site, const SequenceSettings& settings) {
  ContextDate out;
  out.deposit = unit.deposit;
  const YearChances completed = completed_chances(states);
  const YearChances began = began_chances(states, evidence.table.durations);
  out.completed = summary_of(completed, site.years);
  out.began = summary_of(began, site.years);
  out.terminus = terminus_of(evidence.groups.kinds);
  for (const DateGroup& group : evidence.groups.groups) out.vessels += group.vessels;
  const Belief belief = belief_of(unit.deposit, unit.integrity, settings);
  const ContextEvidence pottery(evidence.groups, belief, site.years, settings);
  const auto roles = pottery.roles(states);
  for (std::size_t g = 0; g < roles.size(); ++g) {
    out.groups.push_back(group_date(evidence.groups.groups[g], evidence.groups.kinds, &roles[g]));
    if (settings.influence)
      out.groups.back().influence =
          median_without(pottery.log_like_without(g), states, like, site.years) - out.completed.median->value;
  }
  for (const DateGroup& group : evidence.groups.otherwise)
    out.other_grouping.push_back(group_date(group, evidence.groups.kinds, nullptr));
  // A beginning is dated where the sequence moves it, or the pottery says how long it took.
  double prior = 0;
  double posterior = 0;
  for (std::size_t d = 0; d < belief.durations.size(); ++d) {
    const auto years = static_cast<double>(belief.durations[d]);
    prior += belief.weights[d] * years;
    for (const double chance : states[d]) posterior += chance * years;
  }
  const bool moved = overlap(began, evidence.began) < settings.moved_below;
  const bool learned = std::abs(posterior - prior) > settings.duration_learned * prior;
  if (belief.durations.size() > 1 && !moved && !learned) {
    out.began.median.reset();
    out.flags.push_back({"began_not_dated", "when it was begun is not dated by its pottery", {}});
  }
  return out;
}

void add_alone(ContextDate& out, const YearChances& completed, const YearChances& began, Years years) {
  out.alone = summary_of(completed, years);
  out.alone_began = summary_of(began, years);
}

}  // namespace

UnitEvidence unit_evidence(const SiteUnit& unit, const SiteModel& site, const SequenceSettings& settings) {
  UnitEvidence out;
  out.groups = date_groups(unit.kinds, settings);
  const Belief belief = belief_of(unit.deposit, unit.integrity, settings);
  const Cells log_like = log_like_of(out.groups, belief, site.years, settings);
  out.table = table_of(log_like, belief.durations, unit.first, unit.last);
  const Cells chances = chances_of(log_like);
  out.completed = completed_chances(chances);
  out.began = began_chances(chances, belief.durations);
  return out;
}

bool possible(const Table& table) {
  return std::ranges::any_of(table.like, [](const std::vector<double>& row) {
    return std::ranges::any_of(row, [](double value) { return value > 0; });
  });
}

std::vector<ContextDate> context_dates(const SiteUnit& unit, const UnitEvidence& evidence, const Chances& states,
                                       const SiteModel& site, const SequenceInput& input,
                                       const SequenceSettings& settings) {
  const Cells& like = site.problem.tables[site.unit_of[unit.contexts.front()]].like;
  const ContextDate shared = common(unit, evidence, states, like, site, settings);
  const YearChances completed = completed_chances(states);
  std::vector<ContextDate> out;
  for (const std::size_t i : unit.contexts) {
    const SequenceContext& context = input.contexts[i];
    ContextDate date = shared;
    date.context = context.context;
    date.deposit = context.deposit;
    date.phase = context.phase;
    for (const std::size_t other : unit.contexts) {
      if (other != i) date.same_as.push_back(input.contexts[other].context);
    }
    const bool pottery = has_pottery_of_its_own(context.deposit);
    if (unit.contexts.size() == 1) {
      add_alone(date, evidence.completed, evidence.began, site.years);
    } else {
      SiteUnit own = unit;
      own.kinds = pottery ? context.kinds : std::vector<VesselKind>{};
      const UnitEvidence apart = unit_evidence(own, site, settings);
      add_alone(date, apart.completed, apart.began, site.years);
    }
    if (!evidence.groups.kinds.empty()) date.strain = overlap(evidence.completed, completed);
    if (!pottery && !context.kinds.empty()) {
      DateFlag flag{
          "pottery_in_cut",
          fmt::format("pottery is booked to a {}, which has none of its own: not used", word(context.deposit)),
          {}};
      for (const VesselKind& kind : context.kinds)
        flag.records.insert(flag.records.end(), kind.records.begin(), kind.records.end());
      date.flags.push_back(std::move(flag));
    }
    if (site.limit_not_used[i])
      date.flags.push_back(
          {"limit_not_used", "its limits rest on this pottery and were not used: " + context.limit_basis, {}});
    judge(date, completed, evidence.groups.kinds, site.years, settings);
    const bool early =
        std::ranges::any_of(date.flags, [](const DateFlag& flag) { return flag.code == "before_own_terminus"; });
    if (early) {
      Belief belief = belief_of(unit.deposit, unit.integrity, settings);
      belief.intrusive = 0;
      const Cells chances = chances_of(log_like_of(evidence.groups, belief, site.years, settings));
      date.not_intrusive = summary_of(completed_chances(chances), site.years);
    }
    out.push_back(std::move(date));
  }
  return out;
}

ContextDate not_modelled(const SequenceContext& context) {
  ContextDate out;
  out.context = context.context;
  out.deposit = context.deposit;
  out.phase = context.phase;
  out.flags.push_back({"not_modelled", "a mixed deposit has no date of its own, only its objects have", {}});
  return out;
}

}  // namespace sherd::stratigraphy
