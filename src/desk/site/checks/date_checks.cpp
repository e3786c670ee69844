#include <array>
#include <map>

#include "base/text.h"
#include "desk/dates/flags.h"
#include "desk/site/checks/checks.h"

/// Checks of dates.
namespace sherd::desk {

namespace {

void fabrics_undated(const Check& check, const CheckInput& input, Findings& findings) {
  std::map<std::string, std::int64_t> undated;
  for (std::size_t i = 0; i < input.record.lines.size(); ++i) {
    if (!input.dated.line_dates[i].dated()) ++undated[input.record.lines[i].fabric];
  }
  constexpr std::size_t kListedApart = 12;  // more than these go into one finding
  const std::string hint = "give them a range, or import rows in dates";
  if (undated.size() <= kListedApart) {
    for (const auto& [fabric, lines] : undated) {
      add(findings, check, {"fabrics", fabric, "earliest"},
          "fabric \"" + fabric + "\" is undated on " + counted(lines, "line"), hint);
    }
    return;
  }
  std::vector<std::string> names;
  for (const auto& [fabric, lines] : undated) names.push_back(fabric + " (" + grouped(lines) + ")");
  add(findings, check, {"fabrics", {}, "earliest"},
      counted(static_cast<std::int64_t>(undated.size()), "fabric") + " are undated on some lines: " + join(names, ", "),
      hint);
}

void dates_conflict(const Check& check, const CheckInput& input, Findings& findings) {
  std::map<std::string, std::int64_t> seen;
  for (std::size_t i = 0; i < input.record.lines.size(); ++i) {
    const auto& conflicts = input.dated.line_dates[i].conflicts;
    if (!conflicts.empty()) ++seen[join(conflicts, " against ")];
  }
  for (const auto& [conflict, lines] : seen) {
    add(findings, check, {"dates", {}, "earliest"},
        "equally specific dates differ for " + counted(lines, "line") + ": " + conflict,
        "the widest span of both is used until one is taken away");
  }
}

const Phase* phase_of(const CheckInput& input, const std::string& name) {
  for (const Phase& phase : input.record.phases) {
    if (!name.empty() && phase.phase == name) return &phase;
  }
  return nullptr;
}

void date_out_of_phase(const Check& check, const CheckInput& input, Findings& findings) {
  for (const DatedContext& context : input.dated.contexts) {
    const Context& sheet = *context.context;
    const Phase* phase = phase_of(input, sheet.phase);
    if (phase == nullptr || context.mixed) continue;
    const std::string phase_text = "phase " + phase->phase + " (" + range_text({phase->earliest, phase->latest}) + ")";
    const auto& terminus = context.termini.own;
    if (phase->latest && terminus && terminus->year && *terminus->year > *phase->latest) {
      add(findings, check, {"contexts", sheet.context, "phase"},
          "context " + sheet.context + " is in " + phase_text + ", but record " + terminus->record +
              " cannot be older than " + year_text(*terminus->year),
          "is the sherd intrusive, the bag exchanged, or the phase wrong?");
    }
    const bool ends_before = phase->earliest && sheet.my_latest && *sheet.my_latest < *phase->earliest;
    const bool starts_after = phase->latest && sheet.my_earliest && *sheet.my_earliest > *phase->latest;
    if (ends_before || starts_after) {
      add(findings, check, {"contexts", sheet.context, "my_earliest"},
          "context " + sheet.context + " has the own date " + range_text({sheet.my_earliest, sheet.my_latest}) +
              " outside " + phase_text,
          "change the date or the phase");
    }
  }
}

void own_date_before_terminus(const Check& check, const CheckInput& input, Findings& findings) {
  for (const DatedContext& context : input.dated.contexts) {
    const Context& sheet = *context.context;
    const auto& year = context.effective.year;
    if (context.mixed || !sheet.my_latest || !year || *sheet.my_latest >= *year) continue;
    add(findings, check, {"contexts", sheet.context, "my_latest"},
        "context " + sheet.context + " has the own date " + range_text({sheet.my_earliest, sheet.my_latest}) +
            ", but cannot be older than " + year_text(*year) + " (" + context.effective.because + ")",
        "if the sherd is intrusive, say so in judged; else the date must move");
  }
}

void lone_late_sherd(const Check& check, const CheckInput& input, Findings& findings) {
  for (const DatedContext& context : input.dated.contexts) {
    const auto rest = terminus_without_lone_sherd(context);
    if (!rest || context.mixed) continue;
    add(findings, check, {"sherds", context.termini.own->record, "judged"},
        "one sherd (record " + context.termini.own->record + ", " + year_text(*context.termini.own->year) +
            " or later) sets the terminus of context " + context.context->context + "; without it " + year_text(*rest),
        "brought down by roots or burrows? then put intrusive in judged");
  }
}

constexpr std::array kChecks{
    Check{"own_date_before_terminus", Severity::warning, "an own date that ends before the terminus",
          own_date_before_terminus},
    Check{"date_out_of_phase", Severity::warning, "dates outside their phase", date_out_of_phase},
    Check{"lone_late_sherd", Severity::warning, "one sherd far later than the rest of its context", lone_late_sherd},
    Check{"dates_conflict", Severity::warning, "equally specific dates that differ", dates_conflict},
    Check{"fabrics_undated", Severity::note, "fabrics that date nothing", fabrics_undated},
};

}  // namespace

std::span<const Check> date_checks() { return kChecks; }

}  // namespace sherd::desk
