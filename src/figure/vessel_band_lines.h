#pragma once

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "figure/vessel_bands.h"

namespace sherd::figure {

/// Lines and dots of a band, laid on the side of the pot that is seen and cut off where they leave it.
class BandLines {
 public:
  explicit BandLines(const BandSurface& surface) : surface_(surface) {}

  /// A level line from the centre line to the edge.
  void level(double y);
  void line(std::vector<Point> points) { out_.lines.push_back(std::move(points)); }
  /// Nothing where the place is not there.
  void dot(const std::optional<double>& x, double y);
  /// A line through the places (angle round the pot, height) that `place` gives for shares 0 to 1, in so many steps;
  /// angles beyond 0 to `last` are not seen.
  template <class Place>
  void trace(int steps, double last, Place place) {
    std::vector<Point> seen;
    double before_angle = 0;
    Point before;
    for (int i = 0; i <= steps; ++i) {
      const auto [angle, y] = place(static_cast<double>(i) / steps);
      const auto x = surface_.x(std::min(std::max(angle, 0.0), last), y);
      const bool inside = x && angle >= 0 && angle <= last;
      if (inside) {
        if (seen.empty() && i > 0) enter(seen, before_angle, before, angle, {*x, y}, last);
        seen.push_back({*x, y});
      } else if (!seen.empty()) {
        enter(seen, angle, {0, y}, before_angle, before, last);
        finish(seen);
      }
      before_angle = angle;
      before = {x.value_or(0), y};
    }
    finish(seen);
  }
  std::vector<Point>& area() { return out_.area; }
  BandMarks take() { return std::move(out_); }

 private:
  /// The point on the border between a place outside and one inside.
  void enter(std::vector<Point>& seen, double outside, Point from, double inside, Point to, double last);
  void finish(std::vector<Point>& seen);

  const BandSurface& surface_;
  BandMarks out_;
};

}  // namespace sherd::figure
