#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "base/result.h"
#include "methods/vessel/result.h"
#include "model/section.h"

/// An outline followed on a scanned or photographed drawing, between places that a person clicked.
namespace sherd::vessel {

/// Grey values row by row from the top left, 0 black.
struct GreyImage {
  int width = 0, height = 0;
  std::vector<std::uint8_t> pixels;
};

enum class Follow {
  line,  ///< the middle of a dark line, as of a pencil or ink outline
  edge   ///< the border between dark and light, as of a section filled with black
};

struct TraceSettings {
  Follow follow = Follow::line;  ///< the middle of a dark line, or the edge of a dark area
  double smoothing_px = 1.5;     ///< standard deviation of the blur before looking
  double margin_px = 40;  ///< how far beyond the box of two clicks is looked first; further where the way leads there
  double simplify_px = 0.75;  ///< points that lie nearer than this to the line through the others are left out
  int snap_px = 6;            ///< a click is moved to the clearest place within this distance
};

struct TracedLine {
  std::vector<Place> points;  ///< pixels, from the first click to the last; the middle of a pixel is at .5
  std::vector<Place> clicks;  ///< where the clicks were moved to
  double clearness = 0;       ///< mean clearness of what was followed, 0..1; low where there was nothing to follow
};

/// The way of least cost from click to click, where a pixel costs less the clearer the outline is in it (Dijkstra's
/// shortest path on the pixels; E. N. Mortensen & W. A. Barrett 1995, "Intelligent scissors for image composition",
/// SIGGRAPH 95: 191-198). Errors: `bad_image` (its size and its pixels do not agree, or it is larger than 40 million
/// pixels), `too_few_clicks` (2), `outside_image`, `too_many_clicks` (500), `clicks_too_far`,
/// `bad_setting`.
Result<TracedLine> trace_outline(const GreyImage& image, std::span<const Place> clicks, const TraceSettings& settings);

/// Two places whose distance is known. Error `no_scale` where they are one place or the length is not above 0.
Result<double> mm_per_pixel(const Place& from, const Place& to, double length_mm);

/// Where the section of a drawing lies: pixels to millimetres about the axis.
struct DrawingAxes {
  double mm_per_px = 1;
  double axis_x = 0;      ///< of the vessel's axis, in pixels
  double base_y = 0;      ///< of z = 0
  double turned_deg = 0;  ///< by which the drawing's axis leans clockwise from the upright
};
/// The distance from the axis is counted to both sides alike.
std::vector<OutlinePoint> to_outline(std::span<const Place> pixels, const DrawingAxes& axes);

}  // namespace sherd::vessel
