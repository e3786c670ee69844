#include "methods/stratigraphy/site_model.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <limits>
#include <map>

#include "base/text.h"
#include "methods/stratigraphy/reduce.h"
#include "methods/stratigraphy/site_checks.h"
#include "methods/stratigraphy/stretch_ways.h"

namespace sherd::stratigraphy {

namespace {

constexpr std::size_t kNoPhase = std::numeric_limits<std::size_t>::max();

/// Whether the words of a limit's basis speak of this same pottery: "by its pottery", "spot date", "latest sherd"; not
/// "Depot ledger", nor "potter's bill of 1720".
bool rests_on_pottery(const std::string& basis) {
  std::string word;
  for (const char c : lower(basis) + " ") {
    if (c >= 'a' && c <= 'z') {
      word += c;
      continue;
    }
    const bool pots = word == "pot" || word == "pots" || word == "spot" || word == "sherd" || word == "sherds";
    if (pots || word.starts_with("pottery") || word.starts_with("potsherd") || word.starts_with("ceramic")) return true;
    word.clear();
  }
  return false;
}

class Builder {
 public:
  Builder(const SequenceInput& input, const SequenceSettings& settings, Years years)
      : input_(input), settings_(settings) {
    out_.years = years;
    out_.problem.years = years.size();
    out_.problem.meet = settings.succession;
  }

  SiteModel run() {
    add_units();
    add_limits();
    const bool phases = settings_.limits == Limits::phases && add_phases();
    if (settings_.limits != Limits::none && !phases) add_site();
    if (settings_.ordered_ways) {
      for (Stretch& stretch : out_.problem.stretches) stretch.log_ways = log_ways(out_.problem, stretch);
    }
    out_.problem.tables.resize(out_.units.size());
    return std::move(out_);
  }

 private:
  void add_units() {
    std::vector<std::string> names;
    std::vector<std::size_t> place;
    std::map<std::string, bool, std::less<>> mixed;
    std::vector<std::string> left_out;
    for (std::size_t i = 0; i < input_.contexts.size(); ++i) {
      const SequenceContext& context = input_.contexts[i];
      mixed[context.context] = context.deposit == Deposit::mixed;
      if (context.deposit == Deposit::mixed) {
        left_out.push_back(context.context);
      } else {
        names.push_back(context.context);
        place.push_back(i);
      }
    }
    std::vector<Relation> relations;
    for (const Relation& relation : input_.relations) {
      if (!mixed[relation.later] && !mixed[relation.earlier]) relations.push_back(relation);
    }
    if (!left_out.empty())
      out_.notes.push_back(
          fmt::format("mixed deposits are left out, with their relations: {}", fmt::join(left_out, ", ")));
    const Graph graph(names, relations);
    out_.unit_of.assign(input_.contexts.size(), kNoUnit);
    for (std::uint32_t unit = 0; unit < graph.units(); ++unit) {
      SiteUnit one;
      for (const std::size_t member : graph.members(unit)) {
        one.contexts.push_back(place[member]);
        out_.unit_of[place[member]] = unit;
      }
      join_members(one);
      out_.units.push_back(std::move(one));
    }
    for (const auto& edges : reduced_below(graph)) {
      out_.problem.below.emplace_back();
      for (const Graph::Edge& edge : edges) out_.problem.below.back().push_back(edge.earlier);
    }
  }

  /// One deposit for contexts that are the same: that of the first with pottery of its own.
  void join_members(SiteUnit& unit) {
    const SequenceContext* decides = nullptr;
    bool differ = false;
    unit.integrity = Integrity::sealed;
    for (const std::size_t i : unit.contexts) {
      const SequenceContext& context = input_.contexts[i];
      const bool pottery = has_pottery_of_its_own(context.deposit);
      if (decides == nullptr || (decides->kinds.empty() && pottery && !context.kinds.empty())) decides = &context;
      differ = differ || context.deposit != input_.contexts[unit.contexts.front()].deposit;
      unit.integrity = std::max(unit.integrity, context.integrity);
      if (pottery) unit.kinds.insert(unit.kinds.end(), context.kinds.begin(), context.kinds.end());
    }
    unit.deposit = decides->deposit;
    if (differ)
      out_.notes.push_back(
          fmt::format("{}: their deposits differ, dated as {}", unit_name(unit, input_), word(unit.deposit)));
  }

  void add_limits() {
    const auto last = static_cast<std::int64_t>(out_.years.size()) - 1;
    out_.limit_not_used.assign(input_.contexts.size(), false);
    for (SiteUnit& unit : out_.units) {
      unit.last = last;
      for (const std::size_t i : unit.contexts) {
        const SequenceContext& context = input_.contexts[i];
        if (!context.not_before && !context.not_after) continue;
        const bool circular = !settings_.limits_from_pottery && rests_on_pottery(context.limit_basis);
        out_.limit_not_used[i] = circular;
        if (circular) continue;
        if (context.not_before) unit.first = std::max(unit.first, context.not_before->value - out_.years.first);
        if (context.not_after) unit.last = std::min(unit.last, context.not_after->value - out_.years.first);
      }
    }
  }

  std::size_t phase_named(const std::string& name) const {
    for (std::size_t p = 0; p < input_.phases.size(); ++p) {
      if (input_.phases[p].phase == name) return p;
    }
    return kNoPhase;
  }

  /// False where no phase holds a context.
  bool add_phases() {
    std::map<std::size_t, std::vector<std::uint32_t>> units_of;
    std::map<std::size_t, std::size_t> stretch_of;
    for (std::uint32_t u = 0; u < out_.units.size(); ++u) {
      std::size_t phase = kNoPhase;
      for (const std::size_t i : out_.units[u].contexts) {
        if (phase == kNoPhase && !input_.contexts[i].phase.empty()) phase = phase_named(input_.contexts[i].phase);
      }
      if (phase != kNoPhase) units_of[phase].push_back(u);
    }
    for (auto& [p, units] : units_of) {
      const Phase& phase = input_.phases[p];
      if (phase.basis == PhaseBasis::pottery && !settings_.limits_from_pottery) {
        out_.notes.push_back(fmt::format("phase {} rests on this pottery and is left out of the model", phase.phase));
        continue;
      }
      stretch_of[p] = out_.problem.stretches.size();
      Stretch stretch{std::move(units), 0, static_cast<std::int64_t>(out_.years.size()) - 1};
      if (phase.earliest) stretch.first = std::max(stretch.first, phase.earliest->value - out_.years.first);
      if (phase.latest) stretch.last = std::min(stretch.last, phase.latest->value - out_.years.first);
      out_.problem.stretches.push_back(std::move(stretch));
      out_.phase_of.push_back(p);
    }
    if (stretch_of.empty()) return false;
    const auto free = std::ranges::count_if(out_.units, [&](const SiteUnit& unit) {
      return std::ranges::all_of(unit.contexts, [&](std::size_t i) { return input_.contexts[i].phase.empty(); });
    });
    if (free > 0)
      out_.notes.push_back(fmt::format("{} contexts without a phase are held by their relations alone", free));
    add_succession(stretch_of);
    return true;
  }

  /// In each area every phase follows those of the next lower number.
  void add_succession(const std::map<std::size_t, std::size_t>& stretch_of) {
    std::map<std::string, std::map<std::int64_t, std::vector<std::size_t>>> areas;
    for (const auto& [p, stretch] : stretch_of) {
      const Phase& phase = input_.phases[p];
      if (phase.order) areas[phase.area][*phase.order].push_back(stretch);
    }
    for (const auto& [area, by_order] : areas) {
      const std::vector<std::size_t>* before = nullptr;
      for (const auto& [order, stretches] : by_order) {
        // Side by side, phases cannot share one end.
        if (stretches.size() > 1 && out_.problem.meet == Succession::abutting) {
          out_.problem.meet = Succession::gap;
          out_.notes.emplace_back("phases of the same number cannot all abut: gaps are allowed");
        }
        for (const std::size_t later : stretches) {
          for (std::size_t i = 0; before != nullptr && i < before->size(); ++i)
            out_.problem.succession.emplace_back((*before)[i], later);
        }
        before = &stretches;
      }
    }
  }

  void add_site() {
    if (out_.units.empty()) return;
    Stretch site{{}, 0, static_cast<std::int64_t>(out_.years.size()) - 1};
    for (std::uint32_t u = 0; u < out_.units.size(); ++u) site.units.push_back(u);
    out_.problem.stretches.push_back(std::move(site));
    out_.phase_of.push_back(kNoPhase);
  }

  const SequenceInput& input_;
  const SequenceSettings& settings_;
  SiteModel out_;
};

/// What keeps a unit from being earlier, in words.
std::string reason(const SiteUnit& unit, const SiteModel& site, const SequenceInput& input, std::int64_t year) {
  std::string out = fmt::format("{} no earlier than {}", unit_name(unit, input), year_text({site.years.first + year}));
  if (unit.first > 0) out += fmt::format(" (not before {})", year_text({site.years.first + unit.first}));
  return out;
}

}  // namespace

bool has_pottery_of_its_own(Deposit deposit) {
  return deposit != Deposit::cut && deposit != Deposit::structure && deposit != Deposit::mixed;
}

std::string unit_name(const SiteUnit& unit, const SequenceInput& input) {
  std::vector<std::string> names;
  for (const std::size_t i : unit.contexts) names.push_back(input.contexts[i].context);
  return fmt::format("{} {}", names.size() == 1 ? "context" : "contexts", fmt::join(names, " = "));
}

namespace {

std::string boundary_name(const Boundary& one, const SiteModel& site, const SequenceInput& input) {
  const std::size_t s = one.begins.empty() ? (one.ends.empty() ? 0 : one.ends.front()) : one.begins.front();
  const std::size_t p = site.phase_of[s];
  return fmt::format("the {} of {}", one.begins.empty() ? "end" : "beginning",
                     p == kNoPhase ? "the site" : "phase " + input.phases[p].phase);
}

std::string no_year_left(const SiteUnit& unit, const SiteModel& site, const SequenceInput& input) {
  std::string out = unit_name(unit, input) + " has no year left after that";
  if (unit.last + 1 < static_cast<std::int64_t>(site.years.size()))
    out += fmt::format(" (not after {})", year_text({site.years.first + unit.last}));
  return out;
}

}  // namespace

Error impossible_error(const Impossible& impossible, const SiteModel& site, const SequenceInput& input) {
  std::vector<std::string> words;
  std::string first;
  const Boundaries boundaries = boundaries_of(site.problem);
  for (const Impossible::Step& step : impossible.steps) {
    if (step.unit == kNoUnit) {
      words.push_back(boundary_name(boundaries.all[step.boundary], site, input));
      continue;
    }
    const SiteUnit& unit = site.units[step.unit];
    if (first.empty()) first = input.contexts[unit.contexts.front()].context;
    const bool last = &step == &impossible.steps.back();
    words.push_back(impossible.loop ? unit_name(unit, input)
                    : last          ? no_year_left(unit, site, input)
                                    : reason(unit, site, input, step.year));
  }
  Error out;
  out.where.id = first;
  if (impossible.loop) {
    out.code = "phases_against_order";
    out.message = fmt::format(
        "phases and relations contradict each other; each of these must precede the next, and the last the first: {}",
        fmt::join(words, ", "));
    out.hint = "correct a context's phase, the order of the phases, or a relation";
  } else {
    out.code = "impossible_order";
    out.message = fmt::format("the order leaves no dates: {}", fmt::join(words, "; then "));
    out.hint = "look at the relations between them, at hard limits, and at pottery that may have come in later";
  }
  return out;
}

Error contradiction_error(const SiteUnit& unit, const SiteModel& site, const SequenceInput& input,
                          const SequenceSettings& settings) {
  std::vector<std::string> words;
  if (unit.first > 0) words.push_back("not before " + year_text({site.years.first + unit.first}));
  if (unit.last + 1 < static_cast<std::int64_t>(site.years.size()))
    words.push_back("not after " + year_text({site.years.first + unit.last}));
  const VesselKind* latest = nullptr;
  for (const VesselKind& kind : unit.kinds) {
    if (latest == nullptr || kind.earliest > latest->earliest) latest = &kind;
  }
  if (latest != nullptr)
    words.push_back(fmt::format("pottery from {} on{}", year_text(latest->earliest),
                                latest->records.empty() ? "" : " (record " + latest->records.front() + ")"));
  if (belief_of(unit.deposit, unit.integrity, settings).intrusive <= 0) words.emplace_back("nothing may be intrusive");
  Error out;
  out.code = "contradiction";
  out.message = fmt::format("no year is left for {}: {}", unit_name(unit, input), fmt::join(words, ", "));
  out.hint = "take back a limit, correct a range, or allow for intrusive pottery";
  out.where.id = input.contexts[unit.contexts.front()].context;
  return out;
}

Result<SiteModel> site_model(const SequenceInput& input, const SequenceSettings& settings) {
  SHERD_CHECK(check_input(input));
  SHERD_TRY(const Years years, window_of(input, settings));
  return Builder(input, settings, years).run();
}

}  // namespace sherd::stratigraphy
