#pragma once

#include <map>
#include <utility>
#include <vector>

#include "figure/svg.h"

namespace sherd::figure {

/// Lines of upright and level stretches that share some of them, each of which is to be drawn once: overlaid lines look
/// heavier than others.
class SharedInk {
 public:
  /// The parts of the line that were in none before it, each as a line of its own.
  std::vector<std::vector<Point>> fresh(const std::vector<Point>& line);

 private:
  using Interval = std::pair<double, double>;
  std::vector<Interval> uncovered(bool upright, double at, Interval of);

  std::map<std::pair<bool, long long>, std::vector<Interval>> drawn_;
};

/// A red one with an arrowhead at its end.
void draw_arrow(Svg& svg, const std::vector<Point>& points);

}  // namespace sherd::figure
