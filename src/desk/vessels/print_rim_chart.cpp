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

Result<figure::RimChartSettings> settings_of(const RimChartWish& wish) {
  SHERD_TRY(figure::RimChartSettings settings, paper(wish.paper));
  SHERD_TRY(settings.from_mm, read_mm("from_mm", wish.from_mm, settings.from_mm, 10, 1000));
  SHERD_TRY(settings.to_mm, read_mm("to_mm", wish.to_mm, settings.to_mm, 10, 1000));
  SHERD_TRY(settings.step_mm, read_mm("step_mm", wish.step_mm, settings.step_mm, 5, 100));
  return settings;
}

RimChartResponse answer(const figure::RimChartSettings& settings, const Environment& environment) {
  RimChartResponse response;
  response.width_mm = settings.width_mm;
  response.height_mm = settings.height_mm;
  response.from_mm = settings.from_mm;
  response.to_mm = settings.to_mm;
  response.provenance.version = environment.version;
  return response;
}

}  // namespace

Result<RimChartResponse> print_rim_chart(const RimChartRequest& request, Environment& environment, Progress&) {
  SHERD_CHECK(picture_format(request.out));
  SHERD_TRY(const std::int64_t dpi, dots_per_inch(request.dpi));
  SHERD_TRY(const figure::RimChartSettings settings, settings_of(request));
  SHERD_TRY(const std::string svg, figure::rim_chart(settings));
  SHERD_CHECK(write_pictures({svg}, {request.out, "Rim chart", dpi}, environment));
  RimChartResponse response = answer(settings, environment);
  response.file = request.out;
  return response;
}

Result<RimChartResponse> give_rim_chart(const RimChartFileRequest& request, Environment& environment, Progress&) {
  GiveChoice choice = request;
  if (choice.give.empty()) choice.give = "pdf";
  SHERD_CHECK(check_give(choice));
  SHERD_TRY(const figure::RimChartSettings settings, settings_of(request));
  SHERD_TRY(const std::string svg, figure::rim_chart(settings));
  RimChartResponse response = answer(settings, environment);
  SHERD_TRY(response.documents, given_pictures({svg}, "rim-chart", "Rim chart", choice));
  return response;
}

}  // namespace sherd::desk
