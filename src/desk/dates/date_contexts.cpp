#include "desk/dates/date_contexts.h"

#include "base/text.h"
#include "desk/dates/dated_record.h"
#include "desk/dates/flags.h"
#include "desk/frame/session.h"

namespace sherd::desk {

namespace {

TerminusAnswer terminus_of(const DatedContext& context) {
  const stratigraphy::EffectiveTerminus& effective = context.effective;
  TerminusAnswer answer;
  answer.own = effective.own;
  if (context.mixed) return answer;
  answer.year = effective.year;
  answer.from = effective.from;
  answer.record = effective.record;
  answer.via = effective.via;
  answer.because = effective.because;
  answer.carried = effective.year && effective.from != context.context->context;
  return answer;
}

ContextDate answer_for(const DatedContext& context) {
  ContextDate answer;
  const Context& sheet = *context.context;
  answer.context = sheet.context;
  answer.deposit = sheet.deposit;
  answer.phase = sheet.phase;
  answer.lines = static_cast<std::int64_t>(context.lines.size());
  for (const dating::DatedLine& line : context.dated) {
    if (line.count) answer.sherds = answer.sherds.value_or(0) + *line.count;
  }
  answer.mine = {sheet.my_earliest, sheet.my_latest, sheet.my_reason, sheet.my_confidence};
  answer.terminus_post_quem = terminus_of(context);
  answer.flags = flags_of(context);
  if (context.mixed) return answer;
  if (context.spot) answer.spot = *context.spot;
  answer.mean_date = context.mean;
  answer.apportioned = context.curve.bins;
  answer.apportioned_undated = context.curve.undated;
  if (context.residual) answer.residual = *context.residual;
  return answer;
}

std::vector<PhaseDate> phases_of(const Record& record, const DatedRecord& dated) {
  std::vector<PhaseDate> phases;
  for (const Phase& phase : record.phases) {
    PhaseDate answer{phase.phase, phase.title, phase.area, phase.earliest, phase.latest, 0, {}};
    for (const DatedContext& context : dated.contexts) {
      if (context.context->phase != phase.phase) continue;
      ++answer.contexts;
      const auto year = context.mixed ? std::nullopt : context.effective.year;
      if (year && (!answer.latest_terminus || *year > *answer.latest_terminus)) answer.latest_terminus = year;
    }
    phases.push_back(std::move(answer));
  }
  return phases;
}

}  // namespace

Result<DateResponse> date_contexts(const DateRequest& request, Environment& environment, Progress& progress) {
  if (!request.only_spot) {
    return fail(ErrorKind::usage, "only_spot", "this version gives the conventional dates alone", "say --only-spot");
  }
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const Record record, load_record(session));
  const DatingSettings settings{.curves = true,
                                .bin_years = request.bin.value_or(25),
                                .seed = static_cast<std::uint64_t>(request.seed.value_or(1))};
  SHERD_TRY(const DatedRecord dated, date_record(record, settings, progress));
  if (!dated.loops.empty()) {
    return fail("loop", loop_sentence(dated.loops.front()),
                "check tells which relations make it; correct one of them and import the table anew");
  }

  DateResponse response;
  response.bin = settings.bin_years;
  for (const DatedContext& context : dated.contexts) response.contexts.push_back(answer_for(context));
  response.phases = phases_of(record, dated);
  response.stopped = dated.stopped;
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  if (mean_dates_by_formula(record, settings)) {
    response.warnings.push_back(
        "the limits of mean dates come by formula, sd / sqrt n: resampling so many sherds would take long");
  }
  response.provenance.seed = settings.seed;
  response.provenance.settings["bin"] = std::to_string(settings.bin_years);
  response.provenance.settings["resamples"] = std::to_string(settings.resamples);
  return response;
}

}  // namespace sherd::desk
