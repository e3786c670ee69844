#include "desk/dates/sensitivity.h"

#include <algorithm>
#include <cstdlib>
#include <functional>
#include <map>

#include "base/text.h"
#include "desk/dates/dated_record.h"
#include "desk/dates/flags.h"
#include "desk/dates/modelled_dates.h"
#include "desk/dates/sequence_input.h"
#include "desk/dates/sequence_settings.h"
#include "desk/frame/session.h"

namespace sherd::desk {

namespace {

using stratigraphy::DepositBelief;
using stratigraphy::SequenceInput;
using stratigraphy::SequenceSettings;

constexpr std::int64_t kWindowYears = 100;

struct Assumption {
  const char* name;
  const char* text;
  void (*move)(SequenceSettings&, SequenceInput&);
};

template <class Change>
void each_deposit(SequenceSettings& settings, Change change) {
  for (DepositBelief* belief : {&settings.use, &settings.dump, &settings.silting, &settings.make_up, &settings.unknown})
    change(*belief);
}

void scale_intrusion(SequenceSettings& settings, double times) {
  each_deposit(settings, [&](DepositBelief& belief) { belief.intrusive = std::min(0.5, belief.intrusive * times); });
}

void scale_durations(SequenceSettings& settings, std::int64_t times, std::int64_t by) {
  for (std::int64_t& years : settings.durations) years = years * times / by;
}

/// The window that the model took by itself, made wider.
void widen(SequenceInput& input, std::int64_t years) {
  if (!input.window) return;
  input.window->first.value -= years;
  input.window->last.value = std::min(input.window->last.value + years, input.present.value);
}

constexpr Assumption kAssumptions[]{
    {"use_life_half", "pots last half as long in use", [](SequenceSettings& s, SequenceInput&) { s.use_life /= 2; }},
    {"use_life_double", "pots last twice as long in use", [](SequenceSettings& s, SequenceInput&) { s.use_life *= 2; }},
    {"less_residual", "less of the pottery is residual",
     [](SequenceSettings& s, SequenceInput&) { each_deposit(s, [](DepositBelief& b) { b.residual_b += 2; }); }},
    {"more_residual", "more of the pottery is residual",
     [](SequenceSettings& s, SequenceInput&) { each_deposit(s, [](DepositBelief& b) { b.residual_a += 2; }); }},
    {"less_intrusive", "half as much is intrusive",
     [](SequenceSettings& s, SequenceInput&) { scale_intrusion(s, 0.5); }},
    {"more_intrusive", "twice as much is intrusive",
     [](SequenceSettings& s, SequenceInput&) { scale_intrusion(s, 2); }},
    {"durations_half", "deposits lie open half as long",
     [](SequenceSettings& s, SequenceInput&) { scale_durations(s, 1, 2); }},
    {"durations_double", "deposits lie open twice as long",
     [](SequenceSettings& s, SequenceInput&) { scale_durations(s, 2, 1); }},
    {"doubtful_ranges", "published ends may be wrong by thirty years",
     [](SequenceSettings& s, SequenceInput&) { s.shoulder = std::max(s.shoulder, 30.0); }},
    {"wider_window", "the window is a hundred years wider at each end",
     [](SequenceSettings&, SequenceInput& input) { widen(input, kWindowYears); }},
};

/// A part of a whole that shows its own progress as a share of it.
class Part final : public Progress {
 public:
  Part(Progress& whole, std::size_t number, std::size_t of, std::string text)
      : whole_(whole), number_(static_cast<double>(number)), of_(static_cast<double>(of)), text_(std::move(text)) {}
  bool step(double fraction, std::string_view) override { return whole_.step((number_ + fraction) / of_, text_); }

 private:
  Progress& whole_;
  double number_, of_;
  std::string text_;
};

/// How far a date moves: by its median, or, where one of the two is only a date after which ("after 1715"), by the
/// first year that it may be of.
std::optional<std::int64_t> moved(const stratigraphy::ContextDate& was, const stratigraphy::ContextDate& is) {
  if (was.completed.median && is.completed.median) return is.completed.median->value - was.completed.median->value;
  if (was.completed.range95.empty() || is.completed.range95.empty()) return std::nullopt;
  return is.completed.range95.front().front().value - was.completed.range95.front().front().value;
}

/// What a run under another assumption moves, against the dates as they are.
class Comparison {
 public:
  Comparison(const stratigraphy::Chronology& as_is, std::int64_t years) : as_is_(as_is), years_(years) {
    for (const stratigraphy::ContextDate& date : as_is.contexts) {
      if (!date.completed.range95.empty()) dates_.emplace(date.context, &date);
      moving_[date.context] = {date.context, date.printed, date.completed.median, {}};
    }
  }

  std::int64_t contexts() const { return static_cast<std::int64_t>(dates_.size()); }

  Variation with(const Assumption& assumption, const stratigraphy::Chronology& found) {
    Variation variation{assumption.name, assumption.text, 0, 0, "", found.sampler.converged};
    for (const stratigraphy::ContextDate& date : found.contexts) {
      const auto was = dates_.find(date.context);
      const auto by = was == dates_.end() ? std::nullopt : moved(*was->second, date);
      if (!by) continue;
      const std::int64_t years = *by;
      if (std::abs(years) > std::abs(variation.most)) {
        variation.most = years;
        variation.most_in = date.context;
      }
      if (std::abs(years) <= years_) continue;
      ++variation.moved;
      moving_[date.context].moves.push_back({variation.name, years, date.completed.median});
    }
    return variation;
  }

  /// Contexts that any of the assumptions moves, in the order of the dates.
  std::vector<MovingContext> moving() {
    std::vector<MovingContext> out;
    for (const stratigraphy::ContextDate& date : as_is_.contexts) {
      if (MovingContext& one = moving_[date.context]; !one.moves.empty()) out.push_back(std::move(one));
    }
    return out;
  }

 private:
  const stratigraphy::Chronology& as_is_;
  std::int64_t years_;
  std::map<std::string, const stratigraphy::ContextDate*> dates_;
  std::map<std::string, MovingContext> moving_;
};

}  // namespace

Result<SensitivityResponse> sensitivity(const SensitivityRequest& request, Environment& environment,
                                        Progress& progress) {
  DateRequest asked;
  asked.settings = request.settings;
  asked.limits = request.limits;
  asked.seed = request.seed;
  SHERD_TRY(SequenceSettings settings, sequence_settings(asked, environment));
  settings.influence = false;
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const Record record, load_record(session));
  SHERD_TRY(const DatedRecord dated, date_record(record, {}, progress));
  if (!dated.loops.empty()) {
    return fail("loop", loop_sentence(dated.loops.front()),
                "check tells which relations make it; correct one of them and try again");
  }
  SHERD_TRY(const Year present, present_year(environment));
  const SequenceEvidence evidence = sequence_evidence(record, dated, present);
  const std::size_t runs = std::size(kAssumptions) + 1;

  Part first(progress, 0, runs, "dating as it is");
  SHERD_TRY(const stratigraphy::Chronology as_is, stratigraphy::date_in_sequence(evidence.input, settings, first));
  SensitivityResponse response;
  response.years = request.years.value_or(10);
  Comparison comparison(as_is, response.years);
  response.contexts = comparison.contexts();
  for (std::size_t i = 0; i < std::size(kAssumptions); ++i) {
    SequenceSettings moved = settings;
    SequenceInput input = evidence.input;
    input.window = dating::Window{as_is.window.front(), as_is.window.back()};
    kAssumptions[i].move(moved, input);
    Part part(progress, i + 1, runs, kAssumptions[i].text);
    SHERD_TRY(const stratigraphy::Chronology found, stratigraphy::date_in_sequence(input, moved, part));
    response.variations.push_back(comparison.with(kAssumptions[i], found));
  }
  response.moving = comparison.moving();
  SHERD_TRY(response.provenance, session.provenance(environment));
  for (auto& [name, text] : settings_texts(settings)) response.provenance.settings[name] = std::move(text);
  response.provenance.seed = settings.seed;
  response.warnings = session.store->warnings();
  return response;
}

}  // namespace sherd::desk
