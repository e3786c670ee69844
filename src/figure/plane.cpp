#include "figure/plane.h"

#include <algorithm>
#include <cmath>

#include "figure/words.h"

namespace sherd::figure {
namespace {

constexpr double kTickGapMm = 1.2;
constexpr double kRowOfTicksMm = 8;
constexpr double kTitleGapMm = 1.4;
constexpr double kLeastPlotMm = 20;

std::size_t most_ticks(double height) {
  return static_cast<std::size_t>(std::clamp(height / kRowOfTicksMm, 2.0, 9.0)) + 1;
}

double widest_tick(const std::vector<double>& ticks) {
  double width = 0;
  for (const double tick : ticks)
    width = std::max(width, text_width_mm(tick_label(tick, ticks), Face::sans, kTickPoints));
  return width;
}

double range_of(const Domain& domain) { return domain.high > domain.low ? domain.high - domain.low : 1; }

double plot_height(const PlaneRequest& request, double width, double room) {
  const double wanted =
      request.same_scale ? width * range_of(request.y) / range_of(request.x) : width * request.height_share;
  return std::max(kLeastPlotMm, std::min(wanted, room));
}

// The narrower of the two scales holds for both; the other axis gets what is left on each side.
Domain widened(const Domain& domain, double mm, double unit_mm) {
  const double middle = (domain.low + domain.high) / 2, half = mm / unit_mm / 2;
  return {middle - half, middle + half};
}

/// 1, 2, 5, 10 ... or, over many decades, 1, 10, 100 alone; a label that has no room is left out.
std::vector<AxisTick> log_axis(const LinearScale& scale, double right) {
  std::vector<AxisTick> axis;
  const bool dense = scale.high() - scale.low() < 3.5;
  double last = -1e9;
  for (double power = std::floor(scale.low()); power <= scale.high(); ++power) {
    for (const double factor : dense ? std::vector<double>{1, 2, 5} : std::vector<double>{1}) {
      const double at = power + std::log10(factor);
      if (at < scale.low() - 1e-9 || at > scale.high() + 1e-9) continue;
      AxisTick tick{scale.mm(at), number_text(factor * std::pow(10, power), power < 0 ? static_cast<int>(-power) : 0),
                    0};
      const double half = text_width_mm(tick.label, Face::sans, kTickPoints) / 2;
      tick.label_x = std::min(tick.x, right - half);
      if (tick.label_x - half < last + 1.5) tick.label.clear();
      if (!tick.label.empty()) last = tick.label_x + half;
      axis.push_back(std::move(tick));
    }
  }
  return axis;
}

}  // namespace

Plane place_plane(const PlaneRequest& request) {
  Plane plane;
  const Page page = usable(request.page);
  plane.width = page.width_mm;
  plane.legend = place_legend(request.legend, plane.width);
  std::vector<std::string> sentences = request.notes;
  sentences.insert(sentences.end(), request.about.left_out.begin(), request.about.left_out.end());
  plane.notes = note_lines(sentences, plane.width);
  const bool has_y_title = !request.y_title.empty(), has_x_title = !request.x_title.empty();
  const double top =
      plane.legend.height + (request.legend.empty() ? 0 : 1) + (has_y_title ? line_mm(kNotePoints) + kTitleGapMm : 0.5);
  const double below = (request.with_ticks ? kAxisMm : 0.5) + (has_x_title ? line_mm(kNotePoints) + 0.4 : 0);
  const double room = page.max_height_mm - top - below - notes_mm(plane.notes);
  const auto left_of = [&](const std::vector<double>& ticks) {
    return request.with_ticks ? widest_tick(ticks) + kTickGapMm + 1 : 0.5;
  };
  Domain x = request.x, y = request.y;
  double left = left_of(ticks(y.low, y.high, 9));
  double width = plane.width - left - 1.5;
  double height = plot_height(request, width, room);
  if (request.same_scale) {
    const double unit = std::min(width / range_of(x), height / range_of(y));
    x = widened(x, width, unit);
    y = widened(y, height, unit);
  }
  plane.y_ticks = ticks(y.low, y.high, most_ticks(height));
  left = std::max(left, left_of(plane.y_ticks));
  plane.plot = {left, top, plane.width - left - 1.5, height};
  plane.x = LinearScale(x.low, x.high, plane.plot.x, plane.plot.right());
  plane.y = LinearScale(y.low, y.high, plane.plot.bottom(), plane.plot.y);
  plane.x_axis = request.x_log ? log_axis(plane.x, plane.width) : value_axis(plane.x, plane.plot.x - 4, plane.width);
  plane.height = plane.plot.bottom() + below + notes_mm(plane.notes);
  return plane;
}

void draw_plane(Svg& svg, const PlaneRequest& request, const Plane& plane) {
  const Box& plot = plane.plot;
  draw_legend(svg, plane.legend, 0);
  if (request.with_ticks) {
    draw_rules(svg, plane.x_axis, plot.y, plot.bottom());
    std::vector<Segment> rules;
    for (const double tick : plane.y_ticks)
      rules.push_back({{plot.x, plane.y.mm(tick)}, {plot.right(), plane.y.mm(tick)}});
    svg.lines(rules, Paint::rule, 0.25);
    draw_labels_below(svg, plane.x_axis, plot.bottom());
    for (const double tick : plane.y_ticks) {
      svg.text({plot.x - kTickGapMm, plane.y.mm(tick) + 0.9}, tick_label(tick, plane.y_ticks),
               {kTickPoints, Face::sans, Paint::quiet, Anchor::end});
    }
  }
  if (!request.y_title.empty()) {
    const std::string title = fitted(request.y_title, Face::sans_strong, kNotePoints, plane.width);
    svg.text({0, plot.y - kTitleGapMm - 0.6}, title, {kNotePoints, Face::sans_strong});
  }
  const double axis = plot.bottom() + (request.with_ticks ? kAxisMm : 0.5);
  if (!request.x_title.empty()) {
    const std::string title = fitted(request.x_title, Face::sans_strong, kNotePoints, plot.width);
    svg.text({plot.right(), axis + line_mm(kNotePoints) - 0.8}, title,
             {kNotePoints, Face::sans_strong, Paint::ink, Anchor::end});
  }
  draw_notes(svg, plane.notes, plane.height - notes_mm(plane.notes));
}

}  // namespace sherd::figure
