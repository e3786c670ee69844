#include "figure/rim_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "base/numbers.h"
#include "figure/svg.h"

namespace sherd::figure {
namespace {

constexpr double kEdgeMm = 9;  // of the paper that printers leave white, and a little more
constexpr double kTopMm = 6;
constexpr double kFootMm = 23;  // beneath the centre, for words and the check line
constexpr double kBoldEveryMm = 50, kNamedEveryMm = 20;
constexpr double kThinMm = 0.25, kBoldMm = 0.6, kRayMm = 0.3;
constexpr int kRays = 10;  // a half circle in steps of 5 percent
constexpr double kCheckMm = 100;

Point at(ChartCentre c, double radius, double angle) {
  return {c.x - radius * std::cos(angle), c.y - radius * std::sin(angle)};
}
double ray_angle(double percent) { return percent / 100 * 2 * std::numbers::pi; }

class Chart {
 public:
  explicit Chart(const RimChartSettings& settings) : s_(settings), c_(rim_chart_centre(settings)) {
    half_ = s_.width_mm / 2 - kEdgeMm;
    reach_ = c_.y - kTopMm;
  }

  std::string draw() {
    draw_ticks();
    draw_rays();
    draw_arcs();
    draw_labels();
    draw_foot();
    return svg_.finish(s_.width_mm, s_.height_mm, "Rim chart at true size");
  }

 private:
  bool bold(double diameter) const { return std::abs(std::remainder(diameter, kBoldEveryMm)) < 1e-6; }
  /// Angle from the left horizontal at which a circle comes in from the side.
  double first_angle(double radius) const { return radius <= half_ ? 0 : std::acos(half_ / radius); }

  /// Every arc as one line of short chords: none strays from the circle by more than 0.01 mm.
  void draw_arcs() {
    for (double d = s_.from_mm; d <= s_.to_mm + 1e-9; d += s_.step_mm) {
      const double r = d / 2, from = first_angle(r), to = std::numbers::pi - from;
      const int n = std::max(24, static_cast<int>(std::ceil((to - from) / std::sqrt(8 * 0.008 / r))));
      std::vector<Point> line;
      for (int i = 0; i <= n; ++i) line.push_back(at(c_, r, from + (to - from) * i / n));
      svg_.begin_mark(fmt::format("Diameter {} mm", format_double(d)), "");
      svg_.polyline(line, Paint::ink_line, bold(d) ? kBoldMm : kThinMm);
      svg_.end_mark();
    }
  }

  /// The furthest point of a ray that is still on the sheet.
  double ray_end(double angle) const {
    double r = s_.to_mm / 2 + 3;
    if (std::abs(std::cos(angle)) > 1e-9) r = std::min(r, half_ / std::abs(std::cos(angle)));
    if (std::sin(angle) > 1e-9) r = std::min(r, reach_ / std::sin(angle));
    return r;
  }

  void draw_rays() {
    std::vector<Segment> rays;
    for (int i = 0; i <= kRays; ++i) {
      const double angle = ray_angle(5.0 * i);
      rays.push_back({at(c_, i % 5 == 0 ? 0 : 12, angle), at(c_, ray_end(angle), angle)});
    }
    svg_.lines(rays, Paint::ink_line, kRayMm);
    svg_.circle({c_.x, c_.y}, 0.6, {Paint::ink});
  }

  /// Single percents, on the arcs that are drawn strong.
  void draw_ticks() {
    std::vector<Segment> ticks;
    for (double d = s_.from_mm; d <= s_.to_mm + 1e-9; d += s_.step_mm) {
      if (!bold(d)) continue;
      for (int p = 1; p < 50; ++p) {
        const double angle = ray_angle(p);
        if (p % 5 == 0 || angle < first_angle(d / 2) || angle > std::numbers::pi - first_angle(d / 2)) continue;
        ticks.push_back({at(c_, d / 2 - 1.2, angle), at(c_, d / 2 + 1.2, angle)});
      }
    }
    svg_.lines(ticks, Paint::ink_line, kThinMm);
  }

  void draw_labels() {
    const TextLook look{7, Face::sans, Paint::ink, Anchor::middle, true};
    // Diameters along the upright, and again at 12.5 and 37.5 percent between the rays.
    for (double d = s_.from_mm; d <= s_.to_mm + 1e-9; d += s_.step_mm) {
      const bool named = std::abs(std::remainder(d, kNamedEveryMm)) < 1e-6;
      if (!named) continue;
      for (const double percent : {12.5, 25.0, 37.5}) {
        const Point p = at(c_, d / 2, ray_angle(percent));
        if (d < 80 && percent != 25.0) continue;
        svg_.text({p.x, p.y + 0.9}, format_double(d), look);
      }
    }
    // Percents along a circle that has room between two arcs.
    const double outer = std::min(s_.to_mm / 2, half_);
    const double r = std::floor(outer / 10) * 10 - 3;
    for (int i = 0; i <= kRays; ++i) {
      const double angle = ray_angle(5.0 * i);
      Point p = at(c_, r, angle);
      p.y += i == 0 || i == kRays ? -1 : 0.9;
      svg_.text({p.x, p.y}, fmt::format("{} %", 5 * i), {8, Face::sans_strong, Paint::ink, Anchor::middle, true});
    }
  }

  void draw_foot() {
    const double left = s_.width_mm / 2 - half_, y = c_.y + 5;
    svg_.text({left, y}, "Rim chart", {9, Face::sans_strong});
    svg_.text({left, y + 4}, "Diameters in mm; rays every 5 % of the circle.", {7});
    svg_.text({left, y + 7.5}, "Rim flat on its plane, outer edge along an arc, one end on a ray.", {7});
    svg_.text({left, y + 11}, "Under 5 %: the diameter is a class, not a value.", {7});
    const double to = s_.width_mm / 2 + half_, from = to - kCheckMm, line = y + 4;
    svg_.begin_mark("Check line of 100 mm", "");
    svg_.lines(std::vector<Segment>{{{from, line}, {to, line}}}, Paint::ink_line, 0.35);
    std::vector<Segment> ends;
    for (int i = 0; i <= 10; ++i) {
      const double x = from + kCheckMm * i / 10, half = i % 10 == 0 ? 2 : i == 5 ? 1.4 : 0.8;
      ends.push_back({{x, line - half}, {x, line + half}});
    }
    svg_.lines(ends, Paint::ink_line, kThinMm);
    svg_.end_mark();
    svg_.text({from, line + 5.5}, "Measure this line: 100 mm, or the chart is wrong. Print at 100 %,", {7});
    svg_.text({from, line + 9}, "never fitted to the page; copies stretch.", {7});
  }

  RimChartSettings s_;
  ChartCentre c_;
  double half_ = 0, reach_ = 0;
  Svg svg_;
};

}  // namespace

ChartCentre rim_chart_centre(const RimChartSettings& settings) {
  return {settings.width_mm / 2, settings.height_mm - kFootMm};
}

Result<std::string> rim_chart(const RimChartSettings& settings) {
  const auto& s = settings;
  if (!(s.from_mm >= 10) || !(s.to_mm > s.from_mm) || !(s.step_mm >= 5)) {
    return fail("bad_request", "the diameters of the chart must run from 10 mm up, in steps of 5 mm or more",
                "for example from 40 to 360 in steps of 10");
  }
  const double reach = rim_chart_centre(s).y - kTopMm;
  if (!(s.width_mm >= 200) || !(s.height_mm >= 120) || !(s.width_mm <= 1000) || !(s.height_mm <= 1000)) {
    return fail("bad_request", "the sheet of a rim chart is 200 to 1,000 mm wide and 120 to 1,000 mm high",
                "A4 across is 297 by 210, A3 across 420 by 297");
  }
  if (s.to_mm / 2 > reach) {
    return fail("bad_request",
                fmt::format("a sheet {} mm high holds diameters to {} mm, not {} mm", format_double(s.height_mm),
                            format_double(std::floor(reach / 5) * 10), format_double(s.to_mm)),
                "take a larger sheet, such as A3 (420 by 297), or smaller diameters");
  }
  return Chart(s).draw();
}

}  // namespace sherd::figure
