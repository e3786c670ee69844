#pragma once

#include <optional>
#include <string>
#include <vector>

#include "figure/frame.h"
#include "figure/scale.h"
#include "figure/stratigraphy_diagram.h"
#include "figure/svg.h"

namespace sherd::figure {

/// The years of all strips of a diagram; none where no context has a date.
std::optional<YearScale> strip_scale(const StratigraphyFigure& figure, double from_mm, double to_mm);

/// What a box needs at least.
double context_width_mm(const DiagramContext& context);
double context_height_mm(bool with_strip);

/// Number, type and strip of a context in its box. `dashed`: it is in no phase.
void draw_context(Svg& svg, const DiagramContext& context, const Box& box, const std::optional<YearScale>& scale,
                  bool dashed);

/// What the marks and lines mean, of those that the figure has.
std::vector<LegendItem> diagram_legend(const StratigraphyFigure& figure, bool any_against, bool any_unphased);

/// The years of the strips, once for all, `width_mm` wide; returns its height, 0 where there is no date.
double draw_strip_key(Svg& svg, const StratigraphyFigure& figure, double top, double width_mm);
double strip_key_mm(const StratigraphyFigure& figure);

}  // namespace sherd::figure
