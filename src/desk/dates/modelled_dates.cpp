#include "desk/dates/modelled_dates.h"

#include <algorithm>
#include <map>

#include "base/text.h"
#include "desk/dates/sequence_input.h"
#include "desk/dates/sequence_settings.h"
#include "exchange/cell_reader.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kMostWindow = 12'100;  ///< years, from 10,000 BC to today

Result<Year> year_of(std::string_view text, bool latest) {
  SHERD_TRY(const std::int64_t year, exchange::read_year(trim(text), latest, {}));
  if (year == Column::kNull) return fail("no_year", "no year");
  return Year{year};
}

/// "1000:1900", historical years.
Result<std::optional<dating::Window>> window_of(const std::string& text, std::vector<std::string>& warnings) {
  if (text.empty()) return std::nullopt;
  const auto bad = [&](const std::string& why) {
    return fail(ErrorKind::usage, "bad_window", "the window \"" + text + "\" " + why,
                "say its first and last year, such as --window -50:450");
  };
  const std::size_t colon = text.find(':');
  if (colon == std::string::npos) return bad("has no colon");
  const auto first = year_of(std::string_view(text).substr(0, colon), false);
  const auto last = year_of(std::string_view(text).substr(colon + 1), true);
  if (!first || !last) return bad("is not two years");
  if (*first >= *last) return bad("ends before it begins");
  if (last->value - first->value > kMostWindow) return bad("is longer than 12,100 years");
  for (const std::string_view end :
       {std::string_view(text).substr(0, colon), std::string_view(text).substr(colon + 1)}) {
    if (trim(end) == "0") warnings.emplace_back("there is no year 0: it was taken as 1 BC");
  }
  return dating::Window{*first, *last};
}

Result<std::vector<std::pair<std::string, std::string>>> pairs_of(const std::vector<std::string>& texts,
                                                                  const DatedRecord& dated) {
  std::vector<std::pair<std::string, std::string>> pairs;
  for (const std::string& text : texts) {
    const std::size_t sign = text.find('>');
    if (sign == std::string::npos) {
      return fail(ErrorKind::usage, "bad_pair", "the pair \"" + text + "\" has no >",
                  "say which is asked to be the later: --pair '1013>1020'");
    }
    std::pair<std::string, std::string> pair{trim(std::string_view(text).substr(0, sign)),
                                             trim(std::string_view(text).substr(sign + 1))};
    for (const std::string& name : {pair.first, pair.second}) {
      if (dated.find(name) == nullptr) return fail("no_context", "the record has no context \"" + name + "\"");
    }
    pairs.push_back(std::move(pair));
  }
  return pairs;
}

/// Its own pottery alone: nothing of the ground goes in.
void keep_alone(stratigraphy::SequenceInput& input) {
  input.relations.clear();
  input.phases.clear();
  for (stratigraphy::SequenceContext& context : input.contexts) {
    context.phase.clear();
    context.not_before = context.not_after = std::nullopt;
  }
}

/// The specialist's own date and the modelled one, where they do not meet.
void compare_with_own(ContextDate& answer) {
  if (!answer.completed || answer.completed->range95.empty()) return;
  if (!answer.mine.earliest && !answer.mine.latest) return;
  for (const std::vector<Year>& range : answer.completed->range95) {
    const bool meets = (!answer.mine.latest || range.front() <= *answer.mine.latest) &&
                       (!answer.mine.earliest || range.back() >= *answer.mine.earliest);
    if (meets) return;
  }
  answer.flags.push_back("the specialist's own date (" + range_text({answer.mine.earliest, answer.mine.latest}) +
                         ") and the modelled one (" + answer.printed + ") do not meet");
}

/// A date that lies wholly outside the years of its phase: pottery from another bag, or the wrong phase.
void compare_with_phase(const std::vector<Phase>& phases, ContextDate& answer) {
  if (!answer.completed || answer.completed->range95.empty()) return;
  const auto phase = std::ranges::find(phases, answer.phase, &Phase::phase);
  if (answer.phase.empty() || phase == phases.end()) return;
  const bool later = phase->latest && answer.completed->range95.front().front() > *phase->latest;
  const bool earlier = phase->earliest && answer.completed->range95.back().back() < *phase->earliest;
  if (!later && !earlier) return;
  const std::string message = "its date lies " + std::string(later ? "after" : "before") + " the years of phase " +
                              phase->phase + " (" + range_text({phase->earliest, phase->latest}) +
                              "): pottery from elsewhere, or the wrong phase";
  answer.date_flags.push_back({"out_of_phase", message, {}});
  answer.flags.push_back(message);
}

void shorten(ContextDate& answer) {
  answer.other_grouping.clear();
  answer.not_intrusive.reset();
  for (auto* summary : {&answer.began, &answer.completed, &answer.alone, &answer.alone_began}) {
    if (*summary) (*summary)->density.clear();
  }
  for (stratigraphy::GroupDate& group : answer.groups) group.kinds.clear();
}

void put(stratigraphy::ContextDate&& date, const std::map<std::string_view, const RecordLine*>& lines, bool brief,
         ContextDate& answer) {
  answer.same_as = std::move(date.same_as);
  if (date.completed.median || !date.completed.range95.empty()) answer.completed = std::move(date.completed);
  if (date.began.median || !date.began.range95.empty()) answer.began = std::move(date.began);
  const bool has_pottery = !date.groups.empty();
  if (has_pottery && (date.alone.median || !date.alone.range95.empty())) answer.alone = std::move(date.alone);
  if (has_pottery && (date.alone_began.median || !date.alone_began.range95.empty()))
    answer.alone_began = std::move(date.alone_began);
  if (!date.not_intrusive.range95.empty()) answer.not_intrusive = std::move(date.not_intrusive);
  answer.printed = std::move(date.printed);
  answer.or_later_from = date.or_later_from;
  answer.or_later = date.or_later;
  answer.strain = date.strain;
  const ExpectedResidual expected = expected_residual(date, lines);
  if (!date.groups.empty()) {
    answer.residual.count = expected.count;
    answer.residual.weight_g = expected.weight_g;
    answer.residual.vessels = expected.vessels;
    answer.residual.expected = true;
  }
  answer.groups = std::move(date.groups);
  answer.other_grouping = std::move(date.other_grouping);
  answer.date_flags = std::move(date.flags);
  for (const stratigraphy::DateFlag& flag : answer.date_flags) answer.flags.push_back(flag.message);
  compare_with_own(answer);
  if (brief) shorten(answer);
}

}  // namespace

Result<Year> present_year(const Environment& environment) {
  const std::string today = environment.now();
  return year_of(std::string_view(today).substr(0, 4), true);
}

Result<stratigraphy::SequenceSettings> sequence_settings(const DateRequest& request, Environment& environment) {
  stratigraphy::SequenceSettings settings;
  settings.limits = stratigraphy::Limits::site;  // docs/design/0009-limits-of-phases.md
  if (!request.settings.empty()) {
    SHERD_TRY(const std::string text, environment.files->read(request.settings));
    SHERD_CHECK(read_settings(text, settings));
  }
  if (!request.limits.empty()) {
    const auto limits = from_word<stratigraphy::Limits>(request.limits);
    if (!limits) {
      return fail(ErrorKind::usage, "unknown_word", "\"" + request.limits + "\" is no kind of limits",
                  "say one of none, site, phases");
    }
    settings.limits = *limits;
  }
  const auto number = [](const std::optional<std::int64_t>& asked, const char* name, std::int64_t most,
                         std::int64_t& value) -> Result<void> {
    if (!asked) return {};
    if (*asked < 1 || *asked > most) {
      return fail(ErrorKind::usage, "bad_settings", std::string(name) + " should be 1 to " + std::to_string(most));
    }
    value = *asked;
    return {};
  };
  SHERD_CHECK(number(request.chains, "--chains", 64, settings.chains));
  SHERD_CHECK(number(request.draws, "--draws", 10'000'000, settings.draws));
  if (request.seed) settings.seed = static_cast<std::uint64_t>(*request.seed);
  return settings;
}

Result<void> model_dates(const DateRequest& request, const stratigraphy::SequenceSettings& settings,
                         const Record& record, const DatedRecord& dated, const Environment& environment,
                         DateResponse& response, Progress& progress) {
  SHERD_TRY(const Year present, present_year(environment));
  SequenceEvidence evidence = sequence_evidence(record, dated, present);
  SHERD_TRY(evidence.input.window, window_of(request.window, response.warnings));
  SHERD_TRY(evidence.input.pairs, pairs_of(request.pair, dated));
  const bool alone = !request.context.empty() && !request.in_sequence;
  if (alone) keep_alone(evidence.input);
  auto dates_found = stratigraphy::date_in_sequence(evidence.input, settings, progress);
  if (!dates_found && dates_found.error().code == "nothing_to_date" && !evidence.left_out.empty()) {
    Error error = dates_found.error();
    error.hint = "there are only " + join(evidence.left_out, "; ");
    return fail(std::move(error));
  }
  if (!dates_found) return fail(std::move(dates_found).error());
  stratigraphy::Chronology& found = *dates_found;

  std::map<std::string_view, const RecordLine*> lines;
  for (const RecordLine& line : record.lines) lines.emplace(line.record, &line);
  std::map<std::string_view, stratigraphy::ContextDate*> dates;
  for (stratigraphy::ContextDate& date : found.contexts) dates.emplace(date.context, &date);
  for (ContextDate& answer : response.contexts) {
    if (const auto date = dates.find(answer.context); date != dates.end())
      put(std::move(*date->second), lines, request.brief, answer);
    compare_with_phase(record.phases, answer);
  }
  for (PhaseDate& answer : response.phases) {
    for (stratigraphy::PhaseDate& phase : found.phases) {
      if (phase.phase != answer.phase) continue;
      answer.start = std::move(phase.start);
      answer.finish = std::move(phase.finish);
      answer.length = phase.length;
      answer.length95 = std::move(phase.length95);
    }
  }
  response.window = std::move(found.window);
  response.pairs = std::move(found.pairs);
  response.sampler = std::move(found.sampler);
  for (std::string& note : found.notes) response.warnings.push_back(std::move(note));
  for (std::string& note : evidence.left_out) response.warnings.push_back("left out: " + note);
  for (auto& [name, text] : settings_texts(settings)) response.provenance.settings[name] = std::move(text);
  response.provenance.seed = settings.seed;
  return {};
}

}  // namespace sherd::desk
