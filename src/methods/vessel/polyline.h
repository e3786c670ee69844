#pragma once

#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "methods/vessel/result.h"
#include "model/section.h"

/// Lines of straight pieces.
namespace sherd::vessel {

using Outline = std::vector<OutlinePoint>;

double distance(const OutlinePoint& a, const OutlinePoint& b);
double length_of(std::span<const OutlinePoint> line);
/// From the first point to each point.
std::vector<double> lengths_along(std::span<const OutlinePoint> line);
/// The point at that length; the ends beyond them. `along` as lengths_along gives it; the line has a point.
OutlinePoint point_at(std::span<const OutlinePoint> line, std::span<const double> along, double length);
/// `count` >= 2 points, evenly along the line, its ends among them.
Outline resampled(std::span<const OutlinePoint> line, std::size_t count);

/// The nearest point of the line: how far away, and how far along.
struct Nearest {
  double distance = 0;
  double along = 0;
  OutlinePoint point;
};
Nearest nearest_on(std::span<const OutlinePoint> line, const OutlinePoint& to);

/// Where two lines cross or touch; the first such place along `a`.
std::optional<OutlinePoint> crossing(std::span<const OutlinePoint> a, std::span<const OutlinePoint> b);
/// Where a line crosses itself; its ends may meet.
std::optional<OutlinePoint> self_crossing(std::span<const OutlinePoint> line);

/// Without points that lie within `tolerance` of the line through the others (D. Douglas & T. Peucker 1973).
/// Points where seen and conjectured meet stay.
Outline simplified(const Outline& line, double tolerance);

}  // namespace sherd::vessel
