#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/vessels/section_view.h"
#include "methods/vessel/result.h"

namespace sherd::desk {

struct ClickPoint {
  double x = 0, y = 0;

  template <class V>
  static void fields(V& v) {
    v.field("x", &ClickPoint::x, required_option("pixels from the left"));
    v.field("y", &ClickPoint::y, required_option("pixels from the top"));
  }
};

struct TraceRequest {
  static constexpr bool kPageOnly = true;
  std::int64_t width = 0, height = 0;
  std::string pixels, follow;
  std::vector<ClickPoint> clicks, scale;
  std::optional<double> length_mm, axis_x, base_y, turned_deg, smoothing_px;

  template <class V>
  static void fields(V& v) {
    v.field("width", &TraceRequest::width, required_option("of the picture, pixels"));
    v.field("height", &TraceRequest::height, required_option("of the picture, pixels"));
    v.field("pixels", &TraceRequest::pixels, required_option("grey values row by row, a byte each, in base64"));
    v.field("clicks", &TraceRequest::clicks, required_option("places along the outline, in their order"));
    v.field("follow", &TraceRequest::follow, option("line (unless said): its middle; edge: the border of dark"));
    v.field("scale", &TraceRequest::scale, option("two places whose distance is known"));
    v.field("length_mm", &TraceRequest::length_mm, option("that distance on the vessel"));
    v.field("axis_x", &TraceRequest::axis_x, option("of the vessel's axis, pixels"));
    v.field("base_y", &TraceRequest::base_y, option("of z 0, pixels; the foot of the picture where it is not given"));
    v.field("turned_deg", &TraceRequest::turned_deg, option("by which the drawing leans clockwise"));
    v.field("smoothing_px", &TraceRequest::smoothing_px, option("of the picture before it is looked at (1.5)"));
  }
};

struct TraceResponse : Reply {
  std::vector<vessel::Place> points;  ///< pixels
  std::vector<vessel::Place> clicks;  ///< where they were moved to
  double clearness = 0;
  std::optional<double> mm_per_px;
  std::vector<OutlineEntry> outline;  ///< where scale and axis are given

  template <class V>
  static void fields(V& v) {
    v.field("points", &TraceResponse::points);
    v.field("clicks", &TraceResponse::clicks);
    v.field("clearness", &TraceResponse::clearness);
    v.field("mm_per_px", &TraceResponse::mm_per_px);
    v.field("outline", &TraceResponse::outline);
  }
};

/// The outline between clicks on a picture that the page decoded. Errors: those of vessel::trace_outline; `bad_base64`,
/// `unknown_word`, `no_scale`.
Result<TraceResponse> trace_drawing(const TraceRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
