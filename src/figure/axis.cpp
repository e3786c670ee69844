#include "figure/axis.h"

#include <algorithm>

#include "figure/fonts.h"

namespace sherd::figure {
namespace {

constexpr std::size_t kMostTicks = 10;
constexpr double kLabelGapMm = 2;
constexpr double kTickMm = 1;
constexpr double kLineMm = 0.25;
constexpr TextLook kLabelLook = {kTickPoints, Face::sans, Paint::quiet, Anchor::middle};

double width_of(const AxisTick& tick) { return text_width_mm(tick.label, kLabelLook.face, kLabelLook.points); }

void keep_on_page(AxisTick& tick, double left, double right) {
  const double half = width_of(tick) / 2;
  tick.label_x = std::max(std::max(left, 0.0) + half, std::min(tick.x, right - half));
}

bool has_room(const std::vector<AxisTick>& axis) {
  for (std::size_t i = 1; i < axis.size(); ++i) {
    const double needed = (width_of(axis[i - 1]) + width_of(axis[i])) / 2 + kLabelGapMm;
    if (axis[i].label_x - axis[i - 1].label_x < needed) return false;
  }
  return true;
}

// The densest axis whose labels stand apart; where even two do not, the first keeps its label.
template <class MakeAxis>
std::vector<AxisTick> densest(MakeAxis make, double left, double right) {
  for (std::size_t at_most = kMostTicks;; --at_most) {
    std::vector<AxisTick> axis = make(at_most);
    for (AxisTick& tick : axis) keep_on_page(tick, left, right);
    if (has_room(axis)) return axis;
    if (at_most > 2) continue;
    for (std::size_t i = 1; i < axis.size(); ++i) axis[i].label.clear();
    return axis;
  }
}

}  // namespace

std::vector<AxisTick> value_axis(const LinearScale& scale, double left, double right) {
  const auto make = [&](std::size_t at_most) {
    const std::vector<double> values = ticks(scale.low(), scale.high(), at_most);
    std::vector<AxisTick> axis;
    for (const double value : values) axis.push_back({scale.mm(value), tick_label(value, values), 0});
    return axis;
  };
  return densest(make, left, right);
}

std::vector<AxisTick> year_axis(const YearScale& scale, double left, double right) {
  const auto make = [&](std::size_t at_most) {
    const std::vector<Year> years = year_ticks(scale.first(), scale.last(), at_most);
    std::vector<AxisTick> axis;
    for (const Year year : years) axis.push_back({scale.start_mm(year), year_label(year, scale.first()), 0});
    return axis;
  };
  return densest(make, left, right);
}

void draw_rules(Svg& svg, const std::vector<AxisTick>& axis, double top, double bottom) {
  std::vector<Segment> rules;
  for (const AxisTick& tick : axis) rules.push_back({{tick.x, top}, {tick.x, bottom}});
  svg.lines(rules, Paint::rule, kLineMm);
}

void draw_labels_below(Svg& svg, const std::vector<AxisTick>& axis, double y) {
  std::vector<Segment> strokes;
  for (const AxisTick& tick : axis) strokes.push_back({{tick.x, y}, {tick.x, y + kTickMm}});
  svg.lines(strokes, Paint::axis, kLineMm);
  for (const AxisTick& tick : axis) svg.text({tick.label_x, y + 3.5}, tick.label, kLabelLook);
}

void draw_labels_above(Svg& svg, const std::vector<AxisTick>& axis, double y) {
  std::vector<Segment> strokes;
  for (const AxisTick& tick : axis) strokes.push_back({{tick.x, y - kTickMm}, {tick.x, y}});
  svg.lines(strokes, Paint::axis, kLineMm);
  for (const AxisTick& tick : axis) svg.text({tick.label_x, y - 1.8}, tick.label, kLabelLook);
}

}  // namespace sherd::figure
