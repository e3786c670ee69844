#include "desk/dates/flags.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "base/numbers.h"
#include "base/text.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kLoneSherdYears = 100;

std::string percent_of(double share) { return format_fixed(100 * share, 0) + " %"; }

/// Every dated line ends before the terminus; what is judged intrusive does not count.
bool all_residual(const DatedContext& context) {
  const auto dated = std::ranges::count_if(context.dated, [](const dating::DatedLine& line) {
    return !line.range.empty() && line.judged != Judgement::intrusive;
  });
  return context.residual && static_cast<std::ptrdiff_t>(context.residual->records.size()) == dated;
}

void terminus_flags(const DatedContext& context, std::vector<std::string>& flags) {
  const stratigraphy::EffectiveTerminus& effective = context.effective;
  if (context.mixed) {
    flags.emplace_back("mixed deposit: no date but each object's own");
    return;
  }
  if (effective.in_loop) flags.emplace_back("its relations run in a loop: nothing was carried to it");
  if (effective.incomplete && !effective.in_loop)
    flags.emplace_back("lies above a loop: its terminus may be too early");
  if (effective.own_is_earlier && effective.year && !effective.via.empty()) {
    const std::string beneath = year_text(*effective.year) + ", context " + effective.from;
    flags.push_back(all_residual(context)
                        ? "its own pottery is older than what lies beneath it (" + beneath + "): all residual"
                        : "its own pottery alone gives " + year_text(*effective.own) +
                              "; what lies beneath it is later (" + beneath + ")");
  }
  if (context.termini.intrusive && context.termini.intrusive->year) {
    flags.push_back("record " + context.termini.intrusive->record + " (" + year_text(*context.termini.intrusive->year) +
                    " or later) is judged intrusive and sets no terminus");
  }
}

/// Kept apart from the residual share: what is older than the context by its date but does not look redeposited.
void kept_flags(const DatedContext& context, std::vector<std::string>& flags) {
  const auto told = [&](dating::Kept kept) {
    std::vector<std::string> lines;
    for (const dating::KeptLong& one : context.kept_long) {
      if (one.kept != kept) continue;
      lines.push_back("record " + one.record + " (" + one.because + "; out of making " + counted(one.years, "year") +
                      " before the terminus)");
    }
    return join(lines, ", ");
  };
  const std::string old = told(dating::Kept::old_when_discarded);
  const std::string curated = told(dating::Kept::curated);
  if (!old.empty()) flags.push_back("old when discarded rather than residual? " + old);
  if (!curated.empty()) flags.push_back("curated or re-used rather than residual? " + curated);
}

void own_date_flags(const DatedContext& context, std::vector<std::string>& flags) {
  const auto& latest = context.context->my_latest;
  const auto& year = context.effective.year;
  if (!context.mixed && latest && year && *latest < *year) {
    flags.push_back("own date ends (" + year_text(*latest) + ") before the terminus (" + year_text(*year) + ")");
  }
}

}  // namespace

std::optional<Year> terminus_without_lone_sherd(const DatedContext& context) {
  const auto& own = context.termini.own;
  if (!own || !own->year || own->records.size() != 1 || context.dated.size() < 3) return std::nullopt;
  std::optional<Year> rest;
  for (const dating::DatedLine& line : context.dated) {
    if (line.record == own->record) {
      if (line.count.value_or(1) > 1 || line.vessels.value_or(1) > 1) return std::nullopt;
    } else if (line.range.earliest && line.judged != Judgement::intrusive) {
      rest = rest ? std::max(*rest, *line.range.earliest) : *line.range.earliest;
    }
  }
  if (!rest || own->year->value - rest->value < kLoneSherdYears) return std::nullopt;
  return rest;
}

std::vector<std::string> flags_of(const DatedContext& context) {
  std::vector<std::string> flags;
  terminus_flags(context, flags);
  if (context.mixed) return flags;
  if (context.spot && context.spot->single) flags.emplace_back("spot range rests on one vessel");
  if (context.spot) flags.insert(flags.end(), context.spot->warnings.begin(), context.spot->warnings.end());
  if (const auto rest = terminus_without_lone_sherd(context)) {
    flags.push_back("one sherd (record " + context.termini.own->record + ") sets the terminus; without it " +
                    year_text(*rest) + ": intrusive?");
  }
  if (context.residual && context.residual->count_share.value_or(0) > 0) {
    const auto& deposit = context.context->deposit;
    const bool long_open = deposit == Deposit::use || deposit == Deposit::silting;
    flags.push_back(percent_of(*context.residual->count_share) + " of the dated sherds are " +
                    (long_open ? "older than the terminus: residual, or the deposit was long open" : "residual"));
  }
  kept_flags(context, flags);
  own_date_flags(context, flags);
  return flags;
}

std::string loop_sentence(const stratigraphy::Loop& loop) {
  std::string text = "the relations run in a loop: ";
  for (std::size_t i = 0; i < loop.contexts.size(); ++i) {
    const bool same = i < loop.relations.size() && loop.relations[i].kind == RelationKind::same_as;
    text += loop.contexts[i] + (same ? " the same as " : " later than ");
  }
  return text + loop.contexts.front();
}

}  // namespace sherd::desk
