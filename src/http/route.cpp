#include "http/route.h"

#include <exception>
#include <optional>

#include "base/text.h"
#include "desk/frame/session.h"
#include "http/kept_answers.h"

namespace sherd::http {

std::vector<desk::Preset> Served::presets() const {
  std::vector<desk::Preset> presets{{"store", store},  {"in", store},   {"svg", ""},     {"out", ""},
                                    {"from_file", ""}, {"against", ""}, {"settings", ""}};
  if (!site.empty()) presets.push_back({"site", site});
  return presets;
}

std::vector<desk::Preset> Served::presets(const Visitor& visitor) const {
  std::vector<desk::Preset> all = presets();
  if (!visitor.account.empty()) all.push_back({"who", ""});
  if (visitor.role == access::Role::recorder) all.push_back({"only_of", visitor.recorder});
  return all;
}

desk::Environment Served::environment_of(const Visitor& visitor) const {
  desk::Environment its = environment;
  if (!visitor.recorder.empty()) its.user = visitor.recorder;
  return its;
}

namespace {

/// Site, newest change and how the store was found: what an answer says follows from these. Nothing where the store
/// does not open; the use case will say why.
std::optional<std::string> state_of(const Work& work, desk::Environment& environment) {
  const auto session = desk::open_session(environment, work.store, work.site);
  if (!session) return std::nullopt;
  const auto provenance = session->provenance(environment);
  if (!provenance) return std::nullopt;
  return join(provenance->inputs, "\n") + "\n" + join(session->store->warnings(), "\n") + "\n";
}

Answer kept_or_made(const Work& work, KeptAnswers& kept, desk::Environment& environment, Progress& progress) {
  const auto state = state_of(work, environment);
  if (!state) return work.run(environment, progress);
  return kept.get(*state + work.asked, progress, [&]() -> KeptAnswers::Made {
    Answer answer = work.run(environment, progress);
    const bool lasts = answer && state_of(work, environment) == state;  // no change came in between
    return {std::move(answer), lasts};
  });
}

}  // namespace

namespace {

std::unexpected<Error> our_fault(const std::exception& error) {
  return fail(ErrorKind::internal, "internal", std::string("internal error: ") + error.what(),
              "this is our fault; please report what you did");
}

}  // namespace

Answer carry_out(const Work& work, const Served& served, Progress& progress) {
  try {
    desk::Environment environment = served.environment;
    if (!work.as.empty()) environment.user = work.as;
    if (!served.kept || work.store.empty()) return work.run(environment, progress);
    return kept_or_made(work, *served.kept, environment, progress);
  } catch (const std::exception& error) {
    return our_fault(error);
  }
}

Result<Written> carry_out_writing(const Work& work, const Served& served, const Visitor& visitor, Progress& progress) {
  try {
    desk::Environment environment = served.environment_of(visitor);
    return work.write(environment, progress);
  } catch (const std::exception& error) {
    return our_fault(error);
  }
}

}  // namespace sherd::http
