#pragma once

#include <span>
#include <vector>

#include "figure/svg.h"

namespace sherd::figure {

enum class Slope { rising, falling, upright, level };

/// Parallel lines `spacing_mm` apart, cut at the box. Computed, so that a drawing needs no pattern and no identity of
/// its own on the page.
std::vector<Segment> hatching(const Box& box, Slope slope, double spacing_mm);

/// A triangle with its tip at `tip`, pointing right (+1) or left (-1).
std::vector<Point> arrowhead(Point tip, double length_mm, double half_height_mm, int direction);

/// A line on a mark: with a rim in the page's colour, so that it shows on either.
void draw_line_over(Svg& svg, std::span<const Segment> segments, Paint outline, double line_mm, double rim_mm = 0.3);

/// A line with dashes.
void draw_dashed(Svg& svg, std::span<const Point> points, Paint outline, double line_mm);

/// An interval: a line with a stroke across each end.
void draw_interval(Svg& svg, double from_x, double to_x, double y, double half_height_mm);

/// The area of category i, with the texture that tells the second four from the first.
void draw_category(Svg& svg, const Box& box, std::size_t i);
/// The area of the category "other".
void draw_other(Svg& svg, const Box& box);

}  // namespace sherd::figure
