#include "desk/dates/date_contexts.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "desk/dates/dated_record.h"
#include "desk/dates/flags.h"
#include "desk/dates/kept_dates.h"
#include "desk/dates/modelled_dates.h"
#include "desk/frame/session.h"
#include "desk/recording/context_record.h"
#include "methods/dating/popularity.h"

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

ResidualAnswer residual_of(const dating::Residual& residual) {
  ResidualAnswer answer{
      {}, residual.weight_g, {}, residual.count_share, residual.weight_share, residual.vessels_share, residual.records};
  if (residual.count) answer.count = static_cast<double>(*residual.count);
  if (residual.vessels) answer.vessels = static_cast<double>(*residual.vessels);
  return answer;
}

ContextDate answer_for(const DatedContext& context) {
  ContextDate answer;
  const Context& sheet = *context.context;
  answer.context = sheet.context;
  answer.type = sheet.type;
  answer.description = sheet.description;
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
  answer.bracket = context.bracket;
  if (context.residual) answer.residual = residual_of(*context.residual);
  answer.kept_long = context.kept_long;
  return answer;
}

/// What only a reader of this one context looks at.
void shorten(ContextDate& answer) {
  answer.spot.records.clear();
  answer.spot.because.clear();
  answer.residual.records.clear();
}

Result<void> know_context(const Record& record, const std::string& name) {
  std::vector<std::string> names;
  for (const Context& context : record.contexts) names.push_back(context.context);
  if (name.empty() || std::ranges::find(names, name) != names.end()) return {};
  return fail("no_context", "the record has no context \"" + name + "\"", did_you_mean(name, names));
}

/// The word of a closed list that was asked for, or `otherwise` where none was.
template <WordList E>
Result<E> chosen_word(std::string_view option, const std::string& text, E otherwise) {
  if (text.empty()) return otherwise;
  if (const auto chosen = from_word<E>(text)) return *chosen;
  const std::vector<std::string> words(Words<E>::kNames.begin(), Words<E>::kNames.end());
  return fail(ErrorKind::usage, "unknown_word", "\"" + text + "\" is no " + std::string(option),
              "say one of " + join(words, ", "));
}

/// Where the curve needs the years of full production and the rows do not say them, or say what cannot be.
void warn_of_full_years(const DatedRecord& dated, dating::CurveShape curve, std::vector<std::string>& warnings) {
  if (curve == dating::CurveShape::flat) return;
  bool any = false;
  std::set<std::string> unsound;
  for (const dating::LineDate& date : dated.line_dates) {
    if (date.full.empty() || !date.range().closed()) continue;
    const bool sound = dating::is_sound({date.range(), date.full});
    any = any || sound;
    if (!sound) unsound.insert(date.because);
  }
  for (const std::string& because : unsound)
    warnings.push_back("full production does not lie within the range and was left aside: " + because);
  if (!any && curve == dating::CurveShape::trapezoid)
    warnings.emplace_back("no row of dates says years of full production: the trapezoids are flat");
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

/// Beside a context's date by its own pottery, the one in sequence that was kept last.
Result<void> show_kept(const Session& session, const Environment& environment, DateResponse& response) {
  SHERD_TRY(KeptDates kept, kept_dates(session, environment));
  if (!kept.state.change) return {};
  response.kept = std::move(kept.state);
  for (ContextDate& answer : response.contexts) {
    const auto found = std::ranges::find(kept.contexts, answer.context, &KeptDate::context);
    if (found != kept.contexts.end()) answer.kept = std::move(*found);
  }
  return {};
}

}  // namespace

Result<DateResponse> date_contexts(const DateRequest& request, Environment& environment, Progress& progress) {
  if (request.keep && (request.only_spot || !request.context.empty())) {
    return fail(ErrorKind::usage, "not_for_this", "--keep keeps the dates in sequence of all contexts",
                std::string("leave ") + (request.only_spot ? "--only-spot" : "--context") + " out");
  }
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  const bool alone = !request.context.empty() && !request.in_sequence;
  SHERD_TRY(const Record record, alone ? load_context(session, request.context) : load_record(session));
  SHERD_CHECK(know_context(record, request.context));
  SHERD_TRY(const auto model, sequence_settings(request, environment));
  SHERD_TRY(const auto measure, chosen_word("measure", request.measure, dating::DatingMeasure::count));
  SHERD_TRY(const auto curve, chosen_word("curve", request.curve, dating::CurveShape::flat));
  const DatingSettings settings{.curves = !request.brief,
                                .bin_years = request.bin.value_or(25),
                                .seed = static_cast<std::uint64_t>(request.seed.value_or(1)),
                                .only = request.context,
                                .measure = measure,
                                .curve = curve};
  SHERD_TRY(const DatedRecord dated, date_record(record, settings, progress));
  if (!dated.loops.empty()) {
    return fail("loop", loop_sentence(dated.loops.front()),
                "check tells which relations make it; correct one of them and import the table anew");
  }

  DateResponse response;
  response.measure = word(settings.measure);
  response.curve = word(settings.curve);
  response.bin = settings.bin_years;
  for (const DatedContext& context : dated.contexts) {
    if (!request.context.empty() && request.context != context.context->context) continue;
    response.contexts.push_back(answer_for(context));
    if (request.brief) shorten(response.contexts.back());
  }
  if (!alone) response.phases = phases_of(record, dated);
  response.stopped = dated.stopped;
  SHERD_TRY(response.provenance, session.provenance(environment));
  if (alone) response.provenance.settings["by"] = "own pottery";
  response.warnings = session.store->warnings();
  if (!request.only_spot) {
    SHERD_CHECK(model_dates(request, model, record, dated, environment, response, progress));
  }
  if (!request.context.empty()) SHERD_CHECK(show_kept(session, environment, response));
  if (request.keep && response.sampler) {
    SHERD_TRY(response.kept_as, keep_dates(session, environment, response));
  }
  if (request.brief) return response;
  if (mean_dates_by_formula(record, settings)) {
    response.warnings.push_back(
        "the limits of mean dates come by formula, which the resamples approach: drawing so many lines would take "
        "long");
  }
  warn_of_full_years(dated, settings.curve, response.warnings);
  response.provenance.seed = settings.seed;
  response.provenance.settings["measure"] = response.measure;
  response.provenance.settings["curve"] = response.curve;
  response.provenance.settings["bin"] = std::to_string(settings.bin_years);
  response.provenance.settings["resamples"] = std::to_string(settings.resamples);
  return response;
}

}  // namespace sherd::desk
