#include "desk/vessels/trace_drawing.h"

#include <algorithm>

#include "base/base64.h"
#include "base/text.h"
#include "methods/vessel/trace.h"

namespace sherd::desk {

namespace {

constexpr double kHardlySeen = 0.35;
constexpr std::int64_t kWidest = 20'000;  // pixels

Result<vessel::GreyImage> image_of(const TraceRequest& request) {
  if (request.width < 1 || request.height < 1 || request.width > kWidest || request.height > kWidest)
    return fail("bad_image", "the picture is not between 1 and 20,000 pixels wide and high");
  SHERD_TRY(const std::string bytes, base64_decoded(request.pixels));
  vessel::GreyImage image{static_cast<int>(request.width), static_cast<int>(request.height), {}};
  image.pixels.assign(bytes.begin(), bytes.end());
  return image;
}

Result<vessel::Follow> follow_of(const std::string& word) {
  if (word.empty() || word == "line") return vessel::Follow::line;
  if (word == "edge") return vessel::Follow::edge;
  return fail(ErrorKind::usage, "unknown_word", "\"" + shortened(word, 40) + "\" is nothing to follow", "line or edge");
}

Result<void> put_outline(const TraceRequest& request, TraceResponse& response) {
  if (request.scale.empty() && !request.length_mm) return {};
  if (request.scale.size() != 2 || !request.length_mm)
    return fail("no_scale", "the scale needs two places and their distance in mm",
                "click both ends of the drawn scale bar and say how long it is");
  SHERD_TRY(response.mm_per_px, vessel::mm_per_pixel({request.scale[0].x, request.scale[0].y},
                                                     {request.scale[1].x, request.scale[1].y}, *request.length_mm));
  if (!request.axis_x) return {};
  const vessel::DrawingAxes axes{*response.mm_per_px, *request.axis_x,
                                 request.base_y.value_or(static_cast<double>(request.height)),
                                 request.turned_deg.value_or(0)};
  response.outline = entries_of(vessel::to_outline(response.points, axes));
  return {};
}

}  // namespace

Result<TraceResponse> trace_drawing(const TraceRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const vessel::GreyImage image, image_of(request));
  vessel::TraceSettings settings;
  SHERD_TRY(settings.follow, follow_of(request.follow));
  if (request.smoothing_px) settings.smoothing_px = *request.smoothing_px;
  std::vector<vessel::Place> clicks;
  for (const ClickPoint& click : request.clicks) clicks.push_back({click.x, click.y});
  SHERD_TRY(vessel::TracedLine traced, vessel::trace_outline(image, clicks, settings));
  TraceResponse response;
  response.provenance.version = environment.version;
  response.points = std::move(traced.points);
  response.clicks = std::move(traced.clicks);
  response.clearness = traced.clearness;
  if (traced.clearness < kHardlySeen)
    response.warnings.emplace_back("there is hardly a line to follow here: click closer together, or draw it by hand");
  SHERD_CHECK(put_outline(request, response));
  return response;
}

}  // namespace sherd::desk
