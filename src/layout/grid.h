#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace sherd::layout {

/// The middles of boxes and the places where lines pass lie on a grid of 3 mm, so that lines that end at boxes leave
/// them on its lines, too; a line that would lie on another is moved by a quarter of it.
inline constexpr double kGridMm = 3, kAsideMm = kGridMm / 4;

inline double on_grid(double mm) { return kGridMm * std::round(mm / kGridMm); }

/// A width of 9, 15, 21 ... mm: at least `least_mm`, with room for the lines that end at one side.
inline double box_width_mm(double least_mm, std::size_t lines) {
  const double wanted = std::max({least_mm, kGridMm * static_cast<double>(lines | 1), 9.0});
  return 2 * kGridMm * std::ceil((wanted - kGridMm) / (2 * kGridMm) - 1e-9) + kGridMm;
}

/// Least distance of the middles of two neighbours in a row; a width of 0 is a passing line.
inline double apart_mm(double left_width, double right_width) {
  if (left_width <= 0 && right_width <= 0) return kGridMm;
  if (left_width <= 0 || right_width <= 0) return std::max(left_width, right_width) / 2 + kGridMm / 2;
  return (left_width + right_width) / 2 + kGridMm;
}

}  // namespace sherd::layout
