#include "desk/series/date_object.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/frame/session.h"
#include "desk/series/date_object_marks.h"
#include "desk/series/known_evidence.h"
#include "figure/object_density.h"
#include "methods/dating/when.h"
#include "reference/evidence.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kMostShoulders = 200;
constexpr std::int64_t kMostWindow = 20000;

Result<Year> year_of(std::string_view text) {
  SHERD_TRY(const std::int64_t number, parse_scaled(trim(text), 0));
  return from_historical(number);
}

/// Of "2026-11-25T09:00:00Z".
std::optional<Year> year_of_time(const std::string& now) {
  const auto year = year_of(std::string_view(now).substr(0, 4));
  return year ? std::optional(*year) : std::nullopt;
}

Result<std::optional<YearRange>> window_of(const std::string& text) {
  if (text.empty()) return std::nullopt;
  const auto bad = [&] {
    return fail(ErrorKind::usage, "bad_window", "\"" + text + "\" is no window of years",
                "say FROM:TO, such as --window 1700:1900 or --window -50:200");
  };
  const std::size_t colon = text.find(':');
  if (colon == std::string::npos) return bad();
  const auto from = year_of(std::string_view(text).substr(0, colon));
  const auto to = year_of(std::string_view(text).substr(colon + 1));
  if (!from || !to || *to < *from || to->value - from->value > kMostWindow) return bad();
  return YearRange{*from, *to};
}

/// Everything that an answer needs.
class Asking {
 public:
  Asking(const WhenRequest& request, Environment& environment) : request_(request), environment_(environment) {}

  Result<WhenResponse> answer() {
    SHERD_CHECK(understand_options());
    SHERD_CHECK(open());
    SHERD_CHECK(understand_observations());
    question_.family = family();
    if (session_) {
      SHERD_TRY(auto marks, marks_of_record(*session_, own_, question_.observations));
      std::ranges::move(marks, std::back_inserter(question_.readings));
    }
    static_cast<dating::ObjectDate&>(response_) = dating::when(known_->rows(), question_);
    response_.notes.insert(response_.notes.end(), notes_.begin(), notes_.end());
    for (const dating::Observation& seen : question_.observations) response_.seen.push_back(text_of(seen));
    SHERD_CHECK(draw());
    response_.provenance.version = environment_.version;
    response_.provenance.inputs = known_->inputs;
    response_.provenance.settings["shoulders"] = std::to_string(question_.shoulder);
    if (!request_.window.empty()) response_.provenance.settings["window"] = request_.window;
    return std::move(response_);
  }

 private:
  Result<void> understand_options() {
    SHERD_TRY(question_.window, window_of(request_.window));
    if (environment_.now) question_.today = year_of_time(environment_.now());
    question_.shoulder = request_.shoulders.value_or(dating::kShoulderYears);
    if (question_.shoulder < 0 || question_.shoulder > kMostShoulders)
      return fail(ErrorKind::usage, "bad_shoulders", "shoulders are 0 to " + std::to_string(kMostShoulders) + " years",
                  "leave the option out for " + std::to_string(dating::kShoulderYears));
    if (!request_.svg.empty() && !lower(request_.svg).ends_with(".svg"))
      return fail(ErrorKind::usage, "unknown_format", "\"" + request_.svg + "\" does not end in .svg",
                  "the drawing is an SVG file: say --svg FILE.svg");
    return {};
  }

  Result<void> open() {
    if (request_.in.empty()) {
      SHERD_TRY(KnownEvidence known, known_evidence(environment_, {}, {}));
      known_.emplace(std::move(known));
      return {};
    }
    SHERD_TRY(session_, open_session(environment_, request_.in, request_.site));
    SHERD_TRY(own_, store_evidence(*session_));
    SHERD_TRY(const Provenance provenance, session_->provenance(environment_));
    known_.emplace(reference::evidence_rows(), own_);
    known_->inputs = provenance.inputs;
    response_.warnings = session_->store->warnings();
    return {};
  }

  Result<void> understand_observations() {
    if (request_.seen.empty())
      return fail(ErrorKind::usage, "nothing_seen", "nothing was said of the piece",
                  "say what is seen on it: sherdwright when ware=creamware \"edge=feather edge\"");
    for (const std::string& text : request_.seen) SHERD_CHECK(understand(text));
    if (question_.observations.size() > dating::kMostObservations)
      return fail(ErrorKind::usage, "too_many",
                  "more than " + std::to_string(dating::kMostObservations) + " observations of one piece");
    return {};
  }

  Result<void> understand(const std::string& text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos)
      return fail(ErrorKind::usage, "bad_observation", "\"" + text + "\" is not KEY=VALUE",
                  "say for instance ware=creamware; the keys are " + join(evidence_keys(), ", "));
    const std::string key(trim(std::string_view(text).substr(0, equals)));
    SHERD_TRY(const SeenValue seen, known_->normalise(key, std::string_view(text).substr(equals + 1)));
    if (!seen.note.empty()) response_.warnings.push_back(seen.note);
    if (seen.key == "mark" && !seen.known && !dating::is_pattern(seen.value)) return understand_mark(seen.value);
    observe({*dating::evidence_key(seen.key), seen.value, known_->broader(seen.key, seen.value)});
    return {};
  }

  /// A mark that no row has: its words are read. What can not be read stays as it is, and the answer says that nothing
  /// is known of it.
  Result<void> understand_mark(const std::string& text) {
    auto read = read_as_evidence(text);
    if (!read && read.error().code == "impossible_mark") return fail(std::move(read).error());
    if (!read || read->observations.empty()) {
      response_.warnings.push_back("the mark \"" + text +
                                   "\" is not one that can be read; as the words of a stamp say legend=" + text);
      observe({*dating::evidence_key("mark"), text, {}});
      return {};
    }
    std::vector<std::size_t> places;
    for (dating::Observation& seen : read->observations) places.push_back(observe(std::move(seen)));
    for (dating::OtherReading& reading : read->readings) {
      reading.observation = places[reading.observation];
      const bool there = std::ranges::any_of(question_.readings, [&](const dating::OtherReading& other) {
        return other.observation == reading.observation && other.row.evidence.mark == reading.row.evidence.mark &&
               other.row.evidence.reference == reading.row.evidence.reference;
      });
      if (!there) question_.readings.push_back(std::move(reading));
    }
    std::ranges::move(read->notes, std::back_inserter(notes_));
    return {};
  }

  /// Its place among the observations; the same one twice is one.
  std::size_t observe(dating::Observation seen) {
    auto& all = question_.observations;
    const auto place = std::ranges::find(all, seen);
    if (place != all.end()) return static_cast<std::size_t>(place - all.begin());
    all.push_back(std::move(seen));
    return all.size() - 1;
  }

  /// The wares that are kinds of the piece's ware, or of what it is a kind of; none for a fabric, of which that is not
  /// known.
  std::optional<std::vector<std::string>> family() const {
    std::vector<std::string> out;
    bool known = false;
    for (const dating::Observation& seen : question_.observations) {
      known = known || seen.key == dating::kWareKey || seen.key == dating::kFabricKey;
      if (seen.key != dating::kWareKey) continue;
      for (const std::string& ware : known_->values("ware")) {
        const std::vector<std::string> kinds = known_->broader("ware", ware);
        const bool kin = std::ranges::any_of(kinds, [&](const std::string& kind) {
          return kind == seen.value || std::ranges::find(seen.broader, kind) != seen.broader.end();
        });
        if (kin) out.push_back(ware);
      }
    }
    return known ? std::optional(std::move(out)) : std::nullopt;
  }

  Result<void> draw() {
    if (request_.svg.empty()) return {};
    SHERD_CHECK(environment_.files->write(request_.svg, figure::object_density(figure_data(), {})));
    response_.file = request_.svg;
    return {};
  }

  figure::ObjectDensityData figure_data() const {
    const auto range_of = [](const std::vector<Year>& pair) { return YearRange{pair.front(), pair.back()}; };
    figure::ObjectDensityData data;
    data.about.title = "Years of making: " + join(response_.seen, ", ");
    data.statement = response_.statement;
    if (response_.density.empty()) data.about.left_out = {"No density: " + response_.statement + "."};
    for (const dating::Bin& bin : response_.density) data.density.push_back({bin.from, bin.to, bin.value, ""});
    for (const auto& pair : response_.range68) data.range68.push_back(range_of(pair));
    for (const auto& pair : response_.range95) data.range95.push_back(range_of(pair));
    for (const dating::WhenReason& reason : response_.because) {
      data.evidence.push_back({reason.evidence,
                               {reason.earliest, reason.latest},
                               reason.nature,
                               reason.known == Known::memory,
                               reason.source});
    }
    return data;
  }

  const WhenRequest& request_;
  Environment& environment_;
  std::optional<Session> session_;
  StoreEvidence own_;
  std::optional<KnownEvidence> known_;
  dating::WhenQuestion question_;
  std::vector<dating::WhenNote> notes_;
  WhenResponse response_;
};

}  // namespace

Result<WhenResponse> date_object(const WhenRequest& request, Environment& environment, Progress&) {
  return Asking(request, environment).answer();
}

}  // namespace sherd::desk
