#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "methods/vessel/result.h"

namespace sherd::desk {

struct RimRequest {
  std::string chord, sagitta, points, error, chord_error, class_width;

  template <class V>
  static void fields(V& v) {
    v.field("chord", &RimRequest::chord, option("length of a chord of the rim's edge, mm"));
    v.field("sagitta", &RimRequest::sagitta, option("height of the edge over the middle of that chord, mm"));
    v.field("points", &RimRequest::points,
            option("a table of points along the edge: x and y in mm, and sherd where there are several of one rim"));
    v.field("error", &RimRequest::error,
            option("standard deviation of one reading, mm (points: what their scatter tells; sagitta: 0.1)"));
    v.field("chord_error", &RimRequest::chord_error, option("standard deviation of the chord, mm (0.5 unless said)"));
    v.field("class_width", &RimRequest::class_width,
            option("width of the class of diameters given below 5 %, mm (20 unless said)"));
  }
};

/// A point along a rim's edge, as a page has it.
struct RimPoint {
  std::string sherd;
  double x = 0, y = 0;

  template <class V>
  static void fields(V& v) {
    v.field("sherd", &RimPoint::sherd, option("which of several sherds of one rim"));
    v.field("x", &RimPoint::x, required_option("mm"));
    v.field("y", &RimPoint::y, required_option("mm"));
  }
};

/// The same for a page, which sends what was read.
struct RimReadingRequest {
  static constexpr bool kPageOnly = true;
  std::optional<double> chord, sagitta, error, chord_error, class_width;
  std::vector<RimPoint> points;

  template <class V>
  static void fields(V& v) {
    v.field("chord", &RimReadingRequest::chord, option("mm"));
    v.field("sagitta", &RimReadingRequest::sagitta, option("mm"));
    v.field("points", &RimReadingRequest::points, option("along the edge"));
    v.field("error", &RimReadingRequest::error, option("standard deviation of one reading, mm"));
    v.field("chord_error", &RimReadingRequest::chord_error, option("of the chord, mm"));
    v.field("class_width", &RimReadingRequest::class_width, option("of the class given below 5 %, mm"));
  }
};

struct RimResponse : Reply, vessel::RimMeasure {
  template <class V>
  static void fields(V& v) {
    vessel::RimMeasure::fields(v);
  }
};

/// Diameter and EVE of a rim with their uncertainty, by chord and sagitta or by points. Errors: `bad_request` where it
/// is not said which; those of vessel::rim_from_points, rim_from_sherds and rim_from_chord, and of the file.
Result<RimResponse> measure_rim(const RimRequest& request, Environment& environment, Progress& progress);
Result<RimResponse> measure_rim_reading(const RimReadingRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
