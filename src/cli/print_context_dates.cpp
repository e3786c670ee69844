#include <fmt/format.h>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// Dates of contexts and phases.
namespace sherd::cli {

namespace {

std::string range_or_dash(const std::optional<Year>& earliest, const std::optional<Year>& latest) {
  return earliest || latest ? range_text({earliest, latest}) : "-";
}

/// "1180-1240, 1700-1712"
std::string ranges_of(const std::optional<stratigraphy::DateSummary>& date) {
  std::vector<std::string> parts;
  if (date) {
    for (const std::vector<Year>& range : date->range95) parts.push_back(range_text({range.front(), range.back()}));
  }
  return join(parts, ", ");
}

std::string or_dash(const std::string& text) { return text.empty() ? "-" : text; }

std::string terminus_cell(const desk::TerminusAnswer& terminus) {
  return terminus.year ? year_text(*terminus.year) : "-";
}

std::string conventional(const desk::DateResponse& response) {
  TextTable table(
      {"context", "deposit", "phase", "own date", "terminus", "set by", "spot range", "mean", "sherds", "flags"});
  for (const desk::ContextDate& date : response.contexts) {
    table.row({date.context, date.deposit ? std::string(word(*date.deposit)) : "", date.phase,
               range_or_dash(date.mine.earliest, date.mine.latest), terminus_cell(date.terminus_post_quem),
               date.terminus_post_quem.because, range_or_dash(date.spot.earliest, date.spot.latest),
               date.mean_date.year ? format_fixed(*date.mean_date.year, 0) : "-",
               date.sherds ? grouped(*date.sherds) : "-", join(date.flags, "; ")});
  }
  return table.text(44);
}

/// What a specialist asks first; how it was found comes last, in one line.
std::string modelled(const desk::DateResponse& response) {
  TextTable table({"context", "deposit", "phase", "terminus", "own date", "dated", "95 %", "by its own pottery",
                   "residual", "flags"});
  for (const desk::ContextDate& date : response.contexts) {
    table.row({date.context, date.deposit ? std::string(word(*date.deposit)) : "", date.phase,
               terminus_cell(date.terminus_post_quem), range_or_dash(date.mine.earliest, date.mine.latest),
               or_dash(date.printed), or_dash(ranges_of(date.completed)), or_dash(ranges_of(date.alone)),
               date.residual.vessels ? format_fixed(*date.residual.vessels, 1) + " vessels" : "-",
               join(date.flags, "; ")});
  }
  std::string out = table.text(44);
  TextTable phases({"phase", "title", "contexts", "start", "finish", "length, years"});
  for (const desk::PhaseDate& phase : response.phases) {
    if (!phase.start) continue;
    const bool has_length = phase.length95.size() == 2;
    phases.row({phase.phase, phase.title, grouped(phase.contexts), or_dash(ranges_of(phase.start)),
                or_dash(ranges_of(phase.finish)),
                phase.length
                    ? fmt::format("{}{}", *phase.length,
                                  has_length ? fmt::format(" ({}-{})", phase.length95[0], phase.length95[1]) : "")
                    : "-"});
  }
  if (!response.phases.empty() && response.phases.front().start) out += "\n" + phases.text();
  for (const stratigraphy::PairOrder& pair : response.pairs) {
    out += fmt::format("\n{} was begun when {} was complete, or after: {} in 100", pair.later, pair.earlier,
                       format_fixed(100 * pair.probability, 1));
  }
  const stratigraphy::SamplerReport& sampler = *response.sampler;
  out += response.pairs.empty() ? "\n" : "\n\n";
  if (sampler.exact) return out + "Computed exactly; nothing had to be drawn.\n";
  return out + fmt::format("{} chains of {} draws, seed {}: {} (worst R-hat {}, least effective draws {}).\n",
                           sampler.chains, grouped(sampler.draws), sampler.seed,
                           sampler.converged ? "settled" : "NOT settled", format_fixed(sampler.worst_rhat, 4),
                           format_fixed(sampler.least_effective_draws, 0));
}

}  // namespace

std::string text_of(const desk::DateResponse& response) {
  std::string out = response.sampler ? modelled(response) : conventional(response);
  for (const stratigraphy::Stopped& stop : response.stopped) {
    if (!stop.year) continue;
    out += fmt::format("The terminus {} of context {} goes no further than context {}: {}.\n", year_text(*stop.year),
                       stop.from, stop.context, stop.reason);
  }
  if (response.kept_as) out += fmt::format("Kept in the store as change {}.\n", *response.kept_as);
  return out;
}

std::string text_of(const desk::SensitivityResponse& response) {
  TextTable table({"assumption", "contexts that move", "farthest, years", "in"});
  for (const desk::Variation& one : response.variations) {
    table.row({one.text + (one.converged ? "" : " (not settled)"), grouped(one.moved),
               one.most == 0 ? "-" : fmt::format("{:+}", one.most), one.most_in});
  }
  std::string out = fmt::format("{} dated; listed is what moves by more than {} years.\n\n",
                                counted(response.contexts, "context"), response.years) +
                    table.text();
  TextTable contexts({"context", "dated", "moves"});
  for (const desk::MovingContext& one : response.moving) {
    std::vector<std::string> moves;
    for (const desk::Move& move : one.moves) moves.push_back(fmt::format("{:+} {}", move.years, move.variation));
    contexts.row({one.context, one.printed, join(moves, ", ")});
  }
  if (!response.moving.empty()) out += "\n" + contexts.text(70);
  return out;
}

CsvRows table_of(const desk::SensitivityResponse& response) { return desk::csv_rows(response.variations); }

CsvRows table_of(const desk::DateResponse& response) {
  CsvRows rows{
      {"context",          "deposit",      "phase",      "my_earliest", "my_latest",     "terminus",
       "carried",          "from",         "record",     "because",     "spot_earliest", "spot_latest",
       "single",           "mean_year",    "mean_low95", "mean_high95", "sherds",        "residual_count_share",
       "completed_median", "completed_95", "alone_95",   "printed",     "strain",        "flags"}};
  using desk::csv_cell;
  for (const desk::ContextDate& date : response.contexts) {
    const desk::TerminusAnswer& terminus = date.terminus_post_quem;
    rows.push_back({date.context,
                    csv_cell(date.deposit),
                    date.phase,
                    csv_cell(date.mine.earliest),
                    csv_cell(date.mine.latest),
                    csv_cell(terminus.year),
                    csv_cell(terminus.carried),
                    terminus.from,
                    terminus.record,
                    terminus.because,
                    csv_cell(date.spot.earliest),
                    csv_cell(date.spot.latest),
                    csv_cell(date.spot.single),
                    csv_cell(date.mean_date.year),
                    csv_cell(date.mean_date.low95),
                    csv_cell(date.mean_date.high95),
                    csv_cell(date.sherds),
                    csv_cell(date.residual.count_share),
                    date.completed ? csv_cell(date.completed->median) : "",
                    ranges_of(date.completed),
                    ranges_of(date.alone),
                    date.printed,
                    csv_cell(date.strain),
                    join(date.flags, "; ")});
  }
  return rows;
}

}  // namespace sherd::cli
