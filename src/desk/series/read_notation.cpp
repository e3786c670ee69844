#include "desk/series/read_notation.h"

#include "base/text.h"
#include "desk/series/notation_answers.h"
#include "notation/mark.h"
#include "reference/tables.h"

namespace sherd::desk {

namespace {

/// What is read, in the order of the help.
const std::vector<std::string>& notations() {
  static const std::vector<std::string> kNames{"date",     "mark",    "colour",    "firing",  "size",
                                               "rounding", "sorting", "frequency", "hardness"};
  return kNames;
}

Result<notation::DateReading> date(const NotationRequest& request) {
  notation::DateSettings settings;
  if (!request.style.empty()) {
    SHERD_TRY(settings.style, notation::date_style_named(request.style));
  }
  settings.authority = request.authority;
  SHERD_TRY(const notation::DateReader reader, notation::DateReader::with(reference::periods(), settings));
  return reader.read(request.text);
}

/// The reading of one notation, shown.
Result<NotationResponse> answer(const NotationRequest& request) {
  NotationResponse response;
  const auto done = [&response](const auto& reading) -> Result<NotationResponse> {
    show(reading, response);
    return std::move(response);
  };
  if (request.what == "date") {
    SHERD_TRY(const notation::DateReading reading, date(request));
    return done(reading);
  }
  if (request.what == "mark") {
    SHERD_TRY(const notation::MarkReading reading,
              notation::read_mark(request.text, reference::diamonds(), reference::marks()));
    return done(reading);
  }
  if (request.what == "colour") {
    SHERD_TRY(const notation::ColourReading reading, notation::read_colour(request.text, reference::munsell()));
    return done(reading);
  }
  if (request.what == "firing") {
    SHERD_TRY(const notation::FiringReading reading, notation::read_firing(request.text));
    return done(reading);
  }
  if (const auto attribute = from_word<Attribute>(request.what)) {
    SHERD_TRY(const notation::ScaleReading reading,
              notation::read_scale(*attribute, request.text, request.style, request.to, reference::scales()));
    return done(reading);
  }
  const std::string near = did_you_mean(request.what, notations());
  return fail(ErrorKind::usage, "unknown_notation", "\"" + request.what + "\" is no notation that this version reads",
              (near.empty() ? "" : near + " ") + "say one of: " + join(notations(), ", "));
}

}  // namespace

Result<NotationResponse> read_notation(const NotationRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(NotationResponse response, answer(request));
  response.what = request.what;
  response.text = request.text;
  response.provenance.version = environment.version;
  if (!response.style.empty()) response.provenance.settings["style"] = response.style;
  return response;
}

}  // namespace sherd::desk
