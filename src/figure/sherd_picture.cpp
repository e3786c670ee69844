#include "figure/sherd_picture.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/random.h"
#include "figure/shapes.h"
#include "figure/vessel_shape.h"

namespace sherd::figure {
namespace {

constexpr double kLensMm = 5;  // of the break, across the lens
constexpr double kMostShare = 0.5;
constexpr int kMostGrains = 260;
constexpr int kCorners = 11;

/// A closed outline with broken edges, centred in the box.
std::vector<Point> broken_outline(const Box& box, Random& random) {
  std::vector<Point> points;
  const Point centre{box.x + box.width / 2, box.y + box.height / 2};
  for (int i = 0; i < kCorners; ++i) {
    const double turn = 2 * std::numbers::pi * (i + 0.6 * (random.uniform() - 0.5)) / kCorners;
    const double reach = 0.8 + 0.2 * random.uniform();
    points.push_back(
        {centre.x + reach * box.width / 2 * std::cos(turn), centre.y + reach * box.height / 2 * std::sin(turn)});
  }
  return points;
}

/// The stretch of a level that lies inside the outline; empty where it misses it.
std::pair<double, double> inside_at(const std::vector<Point>& outline, double y) {
  std::vector<Point> closed = outline;
  closed.push_back(outline.front());
  const std::vector<double> x = crossings(closed, y);
  if (x.size() < 2) return {0, 0};
  return {x.front(), x.back()};
}

class SherdDrawer {
 public:
  SherdDrawer(Svg& svg, const Box& box, const SherdLook& look, std::uint64_t seed)
      : svg_(svg), box_(box), look_(look), random_(seed, 7) {}

  void draw() {
    const double lens = std::min(box_.height, box_.width * 0.42);
    face_ = {box_.x, box_.y, box_.width - lens - 2.5, box_.height};
    outline_ = broken_outline({face_.x + 0.5, face_.y + 0.5, face_.width - 1, face_.height - 2.2}, random_);
    draw_thickness();
    svg_.tint(outline_, look_.surface, 1);
    if (!look_.glaze.empty()) draw_glaze();
    draw_pattern();
    if (look_.shiny || !look_.glaze.empty()) draw_shine();
    svg_.polygon(outline_, {Paint::none, Paint::ink_line, 0.3});
    draw_lens({box_.right() - lens / 2, box_.y + box_.height / 2}, lens / 2 - 0.6);
  }

 private:
  void draw_thickness() {
    std::vector<Point> under = outline_;
    for (Point& point : under) point.y += 1.9;
    svg_.tint(under, look_.core, 1);
    svg_.polygon(under, {Paint::none, Paint::ink_line, 0.25});
  }

  /// Over the upper part, with runs.
  void draw_glaze() {
    std::vector<Point> area, lower;
    const double edge = face_.y + face_.height * 0.62;
    for (int i = 0; i <= 24; ++i) {
      const double y = face_.y + 1 + (edge - face_.y - 1) * i / 24;
      const auto [left, right] = inside_at(outline_, y);
      if (right <= left) continue;
      area.push_back({left, y});
      lower.insert(lower.begin(), {right, y});
    }
    area.insert(area.end(), lower.begin(), lower.end());
    if (area.size() > 2) svg_.tint(area, look_.glaze, 0.92);
  }

  void draw_shine() {
    const double y = face_.y + face_.height * 0.27;
    const auto [left, right] = inside_at(outline_, y);
    if (right - left < 6) return;
    const double x = left + (right - left) * 0.22;
    svg_.tint(std::vector<Point>{{x, y + 1.6}, {x + 4, y - 1.2}, {x + 4.9, y - 1.2}, {x + 0.9, y + 1.6}}, "#FFFFFF",
              0.75);
  }

  void stroke(std::vector<std::vector<Point>> lines, double width) {
    if (look_.pattern_colour.empty()) {
      svg_.strokes(lines, {Paint::none, Paint::ink_line, width});
      return;
    }
    for (const auto& line : lines) {
      for (std::size_t i = 1; i < line.size(); ++i) ribbon(line[i - 1], line[i], width);
    }
  }
  /// A short stretch of line as an area, so that it has a colour of its own.
  void ribbon(Point a, Point b, double width) {
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    if (length < 1e-9) return;
    const double nx = -(b.y - a.y) / length * width / 2, ny = (b.x - a.x) / length * width / 2;
    svg_.tint(
        std::vector<Point>{{a.x + nx, a.y + ny}, {b.x + nx, b.y + ny}, {b.x - nx, b.y - ny}, {a.x - nx, a.y - ny}},
        look_.pattern_colour, 1);
  }
  std::vector<Point> level(double y, double wave) const {
    const auto [left, right] = inside_at(outline_, y);
    std::vector<Point> line;
    if (right - left < 4) return line;
    for (double x = left + 0.9; x <= right - 0.9; x += 0.5)
      line.push_back({x, y + wave * std::sin((x - face_.x) * 1.3)});
    return line;
  }
  void levels(const std::vector<double>& at, double wave, double width) {
    std::vector<std::vector<Point>> lines;
    for (const double part : at) {
      if (auto line = level(face_.y + face_.height * part, wave); line.size() > 1) lines.push_back(std::move(line));
    }
    stroke(std::move(lines), width);
  }

  void draw_pattern() {
    switch (look_.pattern) {
      case SherdPattern::none:
        return;
      case SherdPattern::lines:
        return levels({0.34, 0.42, 0.5}, 0, 0.35);
      case SherdPattern::wave:
        return levels({0.4}, 1.3, 0.45);
      case SherdPattern::combed:
        return levels({0.34, 0.4, 0.46, 0.52}, 0.9, 0.3);
      case SherdPattern::trailed:
        return levels({0.36, 0.56}, 1.5, 1.0);
      case SherdPattern::strips:
        return strips();
      case SherdPattern::lattice:
        return lattice();
      case SherdPattern::dots:
      case SherdPattern::printed:
        return sprigs();
    }
  }
  void strips() {
    std::vector<std::vector<Point>> lines;
    for (const double part : {0.3, 0.5, 0.7}) {
      const double x = face_.x + face_.width * part;
      lines.push_back({{x, face_.y + face_.height * 0.24}, {x - 0.6, face_.y + face_.height * 0.7}});
    }
    stroke(std::move(lines), 1.1);
  }
  void lattice() {
    std::vector<std::vector<Point>> lines;
    const double top = face_.y + face_.height * 0.3, bottom = face_.y + face_.height * 0.66, run = (bottom - top) * 0.8;
    const auto [left, right] = inside_at(outline_, (top + bottom) / 2);
    for (double x = left + 2.5; x + run < right - 2; x += 2.4) {
      lines.push_back({{x, top}, {x + run, bottom}});
      lines.push_back({{x + run, top}, {x, bottom}});
    }
    stroke(std::move(lines), 0.3);
  }
  /// Small leaves round a stem, as a print or a painter gives them.
  void sprigs() {
    const std::string colour = look_.pattern_colour.empty() ? "#3E5C8C" : look_.pattern_colour;
    const Point middle{face_.x + face_.width * 0.48, face_.y + face_.height * 0.44};
    const double reach = std::min(face_.width, face_.height) * 0.26;
    for (int i = 0; i < 9; ++i) {
      const double turn = 2 * std::numbers::pi * i / 9, far = i % 2 == 0 ? reach : reach * 0.62;
      const Point at{middle.x + far * std::cos(turn), middle.y + far * std::sin(turn)};
      std::vector<Point> leaf;
      for (int k = 0; k < 8; ++k) {
        const double angle = 2 * std::numbers::pi * k / 8;
        const double along = 1.5 * std::cos(angle), across = 0.62 * std::sin(angle);
        leaf.push_back({at.x + along * std::cos(turn) - across * std::sin(turn),
                        at.y + along * std::sin(turn) + across * std::cos(turn)});
      }
      svg_.tint(leaf, colour, 0.95);
      ribbon_in(middle, at, colour);
    }
  }
  void ribbon_in(Point a, Point b, const std::string& colour) {
    const double length = std::max(1e-9, std::hypot(b.x - a.x, b.y - a.y));
    const double nx = -(b.y - a.y) / length * 0.12, ny = (b.x - a.x) / length * 0.12;
    svg_.tint(
        std::vector<Point>{{a.x + nx, a.y + ny}, {b.x + nx, b.y + ny}, {b.x - nx, b.y - ny}, {a.x - nx, a.y - ny}},
        colour, 0.95);
  }

  /// A disc cut between two heights of it, -1..1.
  static std::vector<Point> slice(Point centre, double radius, double from, double to) {
    std::vector<Point> points;
    for (int i = 0; i <= 24; ++i) {
      const double h = from + (to - from) * i / 24, w = std::sqrt(std::max(0.0, 1 - h * h));
      points.push_back({centre.x - radius * w, centre.y + radius * h});
    }
    for (int i = 24; i >= 0; --i) {
      const double h = from + (to - from) * i / 24, w = std::sqrt(std::max(0.0, 1 - h * h));
      points.push_back({centre.x + radius * w, centre.y + radius * h});
    }
    return points;
  }

  void draw_lens(Point centre, double radius) {
    svg_.tint(slice(centre, radius, -1, 1), look_.core, 1);
    svg_.tint(slice(centre, radius, -1, -0.55), look_.margin, 1);
    svg_.tint(slice(centre, radius, 0.55, 1), look_.margin, 1);
    svg_.tint(slice(centre, radius, -1, -0.86), look_.glaze.empty() ? look_.surface : look_.glaze, 1);
    const double scale = 2 * radius / kLensMm;
    for (const SherdGrains& grains : look_.grains) draw_grains(centre, radius, grains, scale);
    svg_.circle(centre, radius, {Paint::none, Paint::ink_line, 0.55});
    const double handle = radius * 0.72;
    svg_.line({centre.x + handle, centre.y + handle}, {centre.x + handle + 1.5, centre.y + handle + 1.5},
              Paint::ink_line, 0.9);
  }
  void draw_grains(Point centre, double radius, const SherdGrains& grains, double scale) {
    const double size = std::clamp(grains.size_mm * scale / 2, 0.16, radius / 3);
    const double each = std::numbers::pi * size * size * (grains.flat ? 0.55 : 1);
    const double share = std::clamp(grains.share, 0.0, kMostShare);
    const int count = std::min(kMostGrains, static_cast<int>(share * std::numbers::pi * radius * radius / each + 0.5));
    for (int i = 0; i < count; ++i) {
      const double turn = 2 * std::numbers::pi * random_.uniform();
      const double out = (radius - size * 1.15) * std::sqrt(random_.uniform());
      const double y = std::max(out * std::sin(turn), -0.8 * radius + size);
      const Point at{centre.x + out * std::cos(turn), centre.y + y};
      if (std::hypot(at.x - centre.x, at.y - centre.y) > radius - size) continue;
      grain(at, size * (0.65 + 0.5 * random_.uniform()), grains);
    }
  }
  void grain(Point at, double size, const SherdGrains& grains) {
    const double tilt = std::numbers::pi * random_.uniform();
    const double along = grains.flat ? size * 1.25 : size, across = grains.flat ? size * 0.42 : size * 0.86;
    std::vector<Point> points;
    for (int k = 0; k < 7; ++k) {
      const double angle = 2 * std::numbers::pi * k / 7, rough = 0.82 + 0.18 * random_.uniform();
      const double a = along * rough * std::cos(angle), b = across * rough * std::sin(angle);
      points.push_back(
          {at.x + a * std::cos(tilt) - b * std::sin(tilt), at.y + a * std::sin(tilt) + b * std::cos(tilt)});
    }
    svg_.tint(points, grains.colour, 1);
  }

  Svg& svg_;
  Box box_, face_;
  const SherdLook& look_;
  Random random_;
  std::vector<Point> outline_;
};

}  // namespace

void draw_sherd(Svg& svg, const Box& box, const SherdLook& look, std::uint64_t seed) {
  SherdDrawer(svg, box, look, seed).draw();
}

}  // namespace sherd::figure
