#include "figure/vessel_signs.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/numbers.h"

namespace sherd::figure {
namespace {

constexpr double kNumberPoints = 9, kMeasurePoints = 7;
constexpr double kNumberMm = 4.6, kMeasureMm = 3.6;  // what a line of words takes
constexpr double kSignMm = 1.25, kSignGapMm = 0.9;   // radius of the sign, space beside it

std::string percent_words(const VesselShape& shape) {
  const auto& percent = shape.drawing.rim_percent;
  return percent && std::isfinite(*percent)
             ? format_fixed(*percent, *percent < 10 && *percent != std::round(*percent)) + " %"
             : std::string{};
}

bool has_measures(const VesselShape& shape) {
  return shape.settings.measures && (!diameter_words(shape).empty() || !percent_words(shape).empty());
}

std::string measure_words(const VesselShape& shape) {
  const std::string diameter = diameter_words(shape), percent = percent_words(shape);
  return diameter + (diameter.empty() || percent.empty() ? "" : ", ") + percent;
}

double measure_width(const VesselShape& shape) {
  const double sign = percent_words(shape).empty() ? 0 : 2 * kSignMm + kSignGapMm;
  return sign + text_width_mm(measure_words(shape), Face::sans, kMeasurePoints);
}

}  // namespace

std::string diameter_words(const VesselShape& shape) {
  if (!shape.rim) return {};
  if (!shape.halves) return "D. unknown";
  const double own = 2 * shape.drawing.section.outer.back().r_mm;
  const bool certain = shape.drawing.diameter == DiameterKnown::certain;
  const double mm = shape.drawing.rim_diameter_mm.value_or(certain ? own : std::round(own / 10) * 10);
  return fmt::format("D. {}{} mm", certain ? "" : "c. ", format_fixed(mm, 0));
}

double words_width_mm(const VesselShape& shape) {
  double width = 0;
  if (!shape.drawing.number.empty()) width = text_width_mm(shape.drawing.number, Face::sans_strong, kNumberPoints);
  if (has_measures(shape)) width = std::max(width, measure_width(shape));
  return width;
}

double words_height_mm(const VesselShape& shape) {
  return 0.6 + (shape.drawing.number.empty() ? 0 : kNumberMm) + (has_measures(shape) ? kMeasureMm : 0);
}

double words_middle(const VesselShape& shape) {
  if (shape.halves) return 0;
  double section = 0;
  for (const Point& p : shape.outer.points) section = std::max(section, p.x);
  return (6 - section) / 2;
}

void draw_words(Svg& svg, const VesselShape& shape, Point at) {
  double y = at.y;
  if (!shape.drawing.number.empty()) {
    y += kNumberMm;
    svg.text({at.x, y - 0.4}, shape.drawing.number, {kNumberPoints, Face::sans_strong, Paint::ink, Anchor::middle});
  }
  if (!has_measures(shape)) return;
  y += kMeasureMm;
  double x = at.x - measure_width(shape) / 2;
  if (!percent_words(shape).empty()) {
    draw_survival(svg, {x + kSignMm, y - 1.35}, kSignMm, *shape.drawing.rim_percent);
    x += 2 * kSignMm + kSignGapMm;
  }
  svg.text({x, y - 0.5}, measure_words(shape), {kMeasurePoints});
}

void draw_survival(Svg& svg, Point centre, double radius_mm, double percent) {
  const double share = std::clamp(percent / 100, 0.0, 1.0);
  svg.circle(centre, radius_mm, {share >= 1 ? Paint::ink : Paint::plate, Paint::ink_line, 0.25});
  if (!(share > 0) || share >= 1) return;
  std::vector<Point> slice{centre};
  const int steps = std::max(2, static_cast<int>(std::ceil(share * 48)));
  for (int i = 0; i <= steps; ++i) {
    const double angle = 2 * std::numbers::pi * share * i / steps;
    slice.push_back({centre.x + radius_mm * std::sin(angle), centre.y - radius_mm * std::cos(angle)});
  }
  svg.polygon(slice, {Paint::ink});
}

std::string scale_text(double scale) {
  if (scale > 0 && scale < 1) return format_double(std::round(1 / scale * 100) / 100) + ":1";
  return "1:" + format_double(std::round(scale * 100) / 100);
}

ScaleBar::ScaleBar(double scale) {
  struct Choice {
    double mm;
    int parts;
  };
  static constexpr std::array kChoices{Choice{1, 1},  Choice{2, 2},   Choice{5, 5},   Choice{10, 5},  Choice{20, 4},
                                       Choice{50, 5}, Choice{100, 5}, Choice{200, 4}, Choice{500, 5}, Choice{1000, 5}};
  for (const Choice& choice : kChoices) {
    if (real_mm > 0 && choice.mm / scale > 50) break;
    real_mm = choice.mm;
    parts = choice.parts;
    if (choice.mm / scale >= 22) break;
  }
  printed_mm = real_mm / scale;
  words = real_mm >= 10 ? format_fixed(real_mm / 10, 0) + " cm" : format_fixed(real_mm, 0) + " mm";
  scale_words = scale_text(scale);
}

double ScaleBar::width_mm() const {
  return printed_mm + 1.5 +
         std::max(text_width_mm(words, Face::sans, kMeasurePoints) / 2,
                  1.5 + text_width_mm(scale_words, Face::sans, kMeasurePoints));
}

void ScaleBar::draw(Svg& svg, Point at) const {
  constexpr double kBarMm = 1.3;
  const double left = at.x + 1;
  svg.begin_mark("Scale " + scale_words + ": the bar is " + words + " long", "");
  svg.rect({left, at.y + 0.2, printed_mm, kBarMm}, {Paint::plate, Paint::ink_line, 0.25});
  for (int i = 0; i < parts; i += 2) {
    svg.rect({left + printed_mm * i / parts, at.y + 0.2, printed_mm / parts, kBarMm}, {Paint::ink});
  }
  const TextLook look{kMeasurePoints, Face::sans, Paint::ink, Anchor::middle};
  svg.text({left, at.y + 4.4}, "0", look);
  svg.text({left + printed_mm, at.y + 4.4}, words, look);
  svg.text({left + printed_mm + 1.5, at.y + 1.7}, scale_words, {kMeasurePoints});
  svg.end_mark();
}

}  // namespace sherd::figure
