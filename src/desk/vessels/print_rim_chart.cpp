#include "desk/vessels/print_rim_chart.h"

#include "base/text.h"
#include "desk/vessels/drawing_look.h"
#include "desk/vessels/picture_files.h"
#include "figure/rim_chart.h"

namespace sherd::desk {

namespace {

/// ISO 216, across.
Result<figure::RimChartSettings> paper(const std::string& name) {
  const std::string known = lower(name);
  if (known.empty() || known == "a4") return figure::RimChartSettings{297, 210, 40, 360, 10};
  if (known == "a3") return figure::RimChartSettings{420, 297, 40, 530, 10};
  if (known == "a2") return figure::RimChartSettings{594, 420, 40, 780, 10};
  return fail(ErrorKind::usage, "bad_word", "paper is \"" + name + "\"", "say A4, A3 or A2");
}

}  // namespace

Result<RimChartResponse> print_rim_chart(const RimChartRequest& request, Environment& environment, Progress&) {
  SHERD_CHECK(picture_format(request.out));
  SHERD_TRY(const std::int64_t dpi, dots_per_inch(request.dpi));
  SHERD_TRY(figure::RimChartSettings settings, paper(request.paper));
  SHERD_TRY(settings.from_mm, read_mm("from_mm", request.from_mm, settings.from_mm, 10, 1000));
  SHERD_TRY(settings.to_mm, read_mm("to_mm", request.to_mm, settings.to_mm, 10, 1000));
  SHERD_TRY(settings.step_mm, read_mm("step_mm", request.step_mm, settings.step_mm, 5, 100));
  SHERD_TRY(const std::string svg, figure::rim_chart(settings));
  SHERD_CHECK(write_pictures({svg}, {request.out, "Rim chart", dpi}, environment));
  RimChartResponse response;
  response.file = request.out;
  response.width_mm = settings.width_mm;
  response.height_mm = settings.height_mm;
  response.from_mm = settings.from_mm;
  response.to_mm = settings.to_mm;
  response.provenance.version = environment.version;
  return response;
}

}  // namespace sherd::desk
