#include "methods/stratigraphy/site_checks.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <limits>
#include <set>

#include "methods/stratigraphy/reduce.h"

namespace sherd::stratigraphy {

namespace {

constexpr std::int64_t kMostYears = 20'000;

std::unexpected<Error> about(const std::string& context, std::string code, std::string message, std::string hint) {
  Error error{ErrorKind::data, std::move(code), std::move(message), {}, std::move(hint)};
  error.where.id = context;
  return std::unexpected(std::move(error));
}

Result<void> check_ranges(const SequenceContext& context) {
  if (context.not_before && context.not_after && *context.not_before > *context.not_after) {
    return about(context.context, "ranges_reversed",
                 fmt::format("context {}: not before {}, but not after {}", context.context,
                             year_text(*context.not_before), year_text(*context.not_after)),
                 "exchange the two limits, or correct one");
  }
  for (const VesselKind& kind : context.kinds) {
    const bool reversed = kind.breaking.empty() && kind.earliest > kind.latest;
    const bool full = kind.full_from && kind.full_to && *kind.full_from > *kind.full_to;
    if (!reversed && !full) continue;
    return about(
        context.context, "ranges_reversed",
        fmt::format("context {}: {} begins in {} and ends in {}", context.context,
                    kind.name.empty() ? "a range" : kind.name, year_text(full ? *kind.full_from : kind.earliest),
                    year_text(full ? *kind.full_to : kind.latest)),
        "exchange the two years, or correct one");
  }
  return {};
}

Result<void> check_relations(const SequenceInput& input, const std::vector<std::string>& names) {
  for (const RelationTrouble& trouble : relation_troubles(names, input.relations)) {
    if (trouble.code == "both_ways" || trouble.code == "same_and_apart") continue;
    return about(trouble.contexts.front(), trouble.code, trouble.message, trouble.hint);
  }
  const auto loops = Graph(names, input.relations).loops();
  if (loops.empty()) return {};
  const Loop& loop = loops.front();
  std::vector<std::string> words;
  for (const RecordedRelation& relation : loop.relations) words.push_back(relation_text(relation));
  return about(loop.contexts.front(), "loop",
               fmt::format("the contexts {} are later than themselves: {}{}", fmt::join(loop.contexts, ", "),
                           fmt::join(words, ", "),
                           loops.size() > 1 ? fmt::format(" (the shortest of {} loops)", loops.size()) : ""),
               fmt::format("look first at {}: {}", relation_text(loop.look_at.front()), loop.because));
}

/// The years that vessels and limits speak of, and the vessels made last.
struct YearsSaid {
  std::int64_t earliest = std::numeric_limits<std::int64_t>::max();
  std::int64_t latest = std::numeric_limits<std::int64_t>::min();
  const SequenceContext* last_context = nullptr;
  const VesselKind* last_kind = nullptr;
};

YearsSaid years_said(const SequenceInput& input) {
  YearsSaid out;
  const auto include = [&](std::int64_t year) {
    out.earliest = std::min(out.earliest, year);
    out.latest = std::max(out.latest, year);
  };
  for (const SequenceContext& context : input.contexts) {
    if (context.deposit == Deposit::mixed) continue;
    for (const VesselKind& kind : context.kinds) {
      if (kind.vessels <= 0) continue;
      include(kind.earliest.value);
      include(kind.breaking.empty() ? kind.latest.value
                                    : kind.earliest.value + static_cast<std::int64_t>(kind.breaking.size()) - 1);
      if (out.last_kind == nullptr || kind.earliest > out.last_kind->earliest) {
        out.last_kind = &kind;
        out.last_context = &context;
      }
    }
    for (const auto& limit : {context.not_before, context.not_after}) {
      if (limit) include(limit->value);
    }
  }
  return out;
}

}  // namespace

Result<void> check_input(const SequenceInput& input) {
  std::set<std::string> known;
  std::vector<std::string> names;
  for (const SequenceContext& context : input.contexts) {
    names.push_back(context.context);
    if (!known.insert(context.context).second) {
      return about(context.context, "context_twice", fmt::format("context {} is given twice", context.context),
                   "join its lines under one context");
    }
    SHERD_CHECK(check_ranges(context));
  }
  for (const auto& [later, earlier] : input.pairs) {
    for (const std::string& name : {later, earlier}) {
      if (!known.contains(name))
        return about(name, "unknown_context", fmt::format("there is no context {}", name), "correct its name");
    }
  }
  std::set<std::string> phases;
  for (const Phase& phase : input.phases) {
    phases.insert(phase.phase);
    if (phase.earliest && phase.latest && *phase.earliest > *phase.latest) {
      return about(phase.phase, "ranges_reversed",
                   fmt::format("phase {} begins in {} and ends in {}", phase.phase, year_text(*phase.earliest),
                               year_text(*phase.latest)),
                   "exchange the two years, or correct one");
    }
  }
  for (const SequenceContext& context : input.contexts) {
    if (context.phase.empty() || phases.contains(context.phase)) continue;
    return about(
        context.context, "unknown_phase",
        fmt::format("context {} is of phase {}, which is not in the list of phases", context.context, context.phase),
        "add the phase, or correct its name");
  }
  return check_relations(input, names);
}

Result<Years> window_of(const SequenceInput& input, const SequenceSettings& settings) {
  const auto [earliest, latest, last_context, last_kind] = years_said(input);
  if (!input.window && latest < earliest) {
    return fail("nothing_to_date", "no context has a dated vessel or a limit",
                "give fabrics or forms their years, or give a window");
  }
  const auto decade = [](std::int64_t year) { return (year >= 0 ? year / 10 : -((9 - year) / 10)) * 10; };
  Years out;
  if (input.window) {
    out = {input.window->first.value, input.window->last.value};
    if (out.first > out.last)
      return fail("ranges_reversed",
                  fmt::format("the window begins in {} and ends in {}", year_text(input.window->first),
                              year_text(input.window->last)),
                  "exchange the two years");
  } else {
    const std::int64_t end = std::min(decade(latest + settings.margin + 9), std::max(input.present.value, latest));
    out = {decade(earliest - settings.margin), end};
  }
  if (last_kind != nullptr && last_kind->earliest.value >= out.last) {
    return about(last_context->context, "window_too_narrow",
                 fmt::format("the window ends in {}, but context {} has pottery from {} on", year_text({out.last}),
                             last_context->context, year_text(last_kind->earliest)),
                 "let the window end later");
  }
  if (out.last - out.first < 2) return fail("window_too_narrow", "the window has fewer than three years", "widen it");
  if (out.last - out.first >= kMostYears) {
    return fail("window_too_wide",
                fmt::format("the window from {} to {} has more than {} years", year_text({out.first}),
                            year_text({out.last}), kMostYears),
                "give a narrower one, or correct the range that makes it so wide");
  }
  return out;
}

}  // namespace sherd::stratigraphy
