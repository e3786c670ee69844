#include "desk/series/read_notation.h"

#include "notation/date.h"

namespace sherd::desk {

Result<NotationResponse> read_notation(const NotationRequest& request, Environment& environment, Progress&) {
  if (request.what != "date") {
    return fail(ErrorKind::usage, "unknown_notation", "\"" + request.what + "\" is no notation that this version reads",
                "say: read date TEXT");
  }
  notation::DateStyle style = notation::default_date_style();
  if (!request.style.empty()) {
    SHERD_TRY(style, notation::date_style_named(request.style));
  }
  SHERD_TRY(const notation::DateReading reading, notation::read_date(request.text, style));
  NotationResponse response;
  response.text = request.text;
  response.reads = range_text(reading.range);
  response.earliest = reading.range.earliest;
  response.latest = reading.range.latest;
  response.certainty = reading.certainty;
  response.circa = reading.circa;
  response.style = reading.style;
  response.because = reading.because;
  response.warnings = reading.warnings;
  response.provenance.version = environment.version;
  response.provenance.settings["style"] = reading.style;
  return response;
}

}  // namespace sherd::desk
