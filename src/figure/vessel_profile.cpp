#include <algorithm>
#include <cmath>
#include <numbers>

#include "figure/vessel_shape.h"

namespace sherd::figure {
namespace {

constexpr double kCornerDegrees = 40;  // sharper turns of the given points stay corners
constexpr double kEdgeDegrees = 38;    // turns that show as a line on the pot
constexpr double kEdgeReachMm = 0.8;   // of print, on either side of the turn
constexpr double kEdgesApartMm = 1.0;
constexpr double kStepMm = 0.4;  // of a curve, in print
constexpr int kMostSteps = 24;

double distance(Point a, Point b) { return std::hypot(b.x - a.x, b.y - a.y); }

double turn_degrees(Point a, Point b, Point c) {
  const double before = std::atan2(b.y - a.y, b.x - a.x), after = std::atan2(c.y - b.y, c.x - b.x);
  return std::abs(std::remainder(after - before, 2 * std::numbers::pi)) * 180 / std::numbers::pi;
}

Point between(Point a, Point b, double share) { return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)}; }

/// Centripetal Catmull-Rom (Barry & Goldman 1988, Computer Graphics 22(4); parameter of Yuksel et al. 2011) from b to
/// c.
Point on_curve(Point a, Point b, Point c, Point d, double share) {
  const double t1 = std::sqrt(distance(a, b)), t2 = t1 + std::sqrt(distance(b, c)), t3 = t2 + std::sqrt(distance(c, d));
  const double t = t1 + share * (t2 - t1);
  const auto mix = [t](Point p, Point q, double from, double to) { return between(p, q, (t - from) / (to - from)); };
  const Point ab = mix(a, b, 0, t1), bc = mix(b, c, t1, t2), cd = mix(c, d, t2, t3);
  return mix(mix(ab, bc, 0, t2), mix(bc, cd, t1, t3), t1, t2);
}

/// The point `reach` along the line from point `at`, forwards or backwards, and whether there is so much of it.
std::pair<Point, bool> along(const std::vector<Point>& line, std::size_t at, double reach, int step) {
  Point here = line[at];
  for (std::size_t i = at; step > 0 ? i + 1 < line.size() : i > 0;) {
    const std::size_t next = step > 0 ? i + 1 : i - 1;
    const double length = distance(line[i], line[next]);
    if (length >= reach && length > 0) return {between(line[i], line[next], reach / length), true};
    reach -= length;
    i = next;
    here = line[i];
  }
  return {here, false};
}

}  // namespace

std::vector<ProfileRun> Profile::runs() const {
  std::vector<ProfileRun> out;
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (out.empty() || out.back().conjectured != conjectured[i]) out.push_back({{points[i - 1]}, conjectured[i]});
    out.back().points.push_back(points[i]);
  }
  return out;
}

Profile printed_profile(const std::vector<OutlinePoint>& given, double top_z, double scale, bool smooth) {
  Profile sparse, out;
  for (const OutlinePoint& p : given) {
    const Point printed = {p.r_mm / scale, (top_z - p.z_mm) / scale};
    if (!sparse.points.empty() && distance(sparse.points.back(), printed) < 1e-6) continue;
    sparse.points.push_back(printed);
    sparse.conjectured.push_back(p.conjectured);
  }
  const std::vector<Point>& p = sparse.points;
  if (!smooth || p.size() < 3) return sparse;
  const auto corner = [&](std::size_t i) {
    return i == 0 || i + 1 == p.size() || turn_degrees(p[i - 1], p[i], p[i + 1]) > kCornerDegrees;
  };
  out.points.push_back(p.front());
  out.conjectured.push_back(sparse.conjectured.front());
  for (std::size_t i = 0; i + 1 < p.size(); ++i) {
    const Point a = corner(i) ? between(p[i + 1], p[i], 2) : p[i - 1];
    const Point d = corner(i + 1) ? between(p[i], p[i + 1], 2) : p[i + 2];
    const int steps = std::clamp(static_cast<int>(distance(p[i], p[i + 1]) / kStepMm), 1, kMostSteps);
    for (int k = 1; k <= steps; ++k) {
      Point next = k == steps ? p[i + 1] : on_curve(a, p[i], p[i + 1], d, static_cast<double>(k) / steps);
      next.x = std::max(next.x, 0.0);
      out.points.push_back(next);
      out.conjectured.push_back(sparse.conjectured[i + 1]);
    }
  }
  return out;
}

std::vector<EdgeLine> sharp_turns(const Profile& profile, double skip_top, double skip_bottom) {
  struct Turn {
    double degrees;
    EdgeLine line;
  };
  std::vector<Turn> turns;
  const std::vector<Point>& line = profile.points;
  for (std::size_t i = 1; i + 1 < line.size(); ++i) {
    if (line[i].y < skip_top || line[i].y > skip_bottom || profile.conjectured[i]) continue;
    const auto [before, enough_before] = along(line, i, kEdgeReachMm, -1);
    const auto [after, enough_after] = along(line, i, kEdgeReachMm, 1);
    if (!enough_before || !enough_after) continue;
    const double degrees = turn_degrees(before, line[i], after);
    if (degrees >= kEdgeDegrees) turns.push_back({degrees, {line[i].x, line[i].y}});
  }
  std::ranges::stable_sort(turns, std::ranges::greater{}, &Turn::degrees);
  std::vector<EdgeLine> out;
  for (const Turn& turn : turns) {
    const auto near = [&](const EdgeLine& e) { return std::abs(e.y - turn.line.y) < kEdgesApartMm; };
    if (std::ranges::none_of(out, near)) out.push_back(turn.line);
  }
  std::ranges::sort(out, {}, &EdgeLine::y);
  return out;
}

std::vector<double> crossings(const std::vector<Point>& line, double y) {
  std::vector<double> out;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Point a = line[i - 1], b = line[i];
    if ((a.y <= y) == (b.y <= y)) continue;
    out.push_back(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
  }
  std::ranges::sort(out);
  return out;
}

std::vector<Segment> hatched_area(const std::vector<Point>& corners, double spacing_mm) {
  if (corners.size() < 3 || !(spacing_mm > 0)) return {};
  // Turned by 45 degrees the hatching is level.
  constexpr double kHalf = std::numbers::sqrt2 / 2;
  std::vector<Point> turned;
  double least = 1e300, most = -1e300;
  for (const Point& p : corners) {
    turned.push_back({(p.x - p.y) * kHalf, (p.x + p.y) * kHalf});
    least = std::min(least, turned.back().y);
    most = std::max(most, turned.back().y);
  }
  turned.push_back(turned.front());
  std::vector<Segment> out;
  for (double y = least + spacing_mm / 2; y < most; y += spacing_mm) {
    const std::vector<double> x = crossings(turned, y);
    for (std::size_t i = 0; i + 1 < x.size(); i += 2) {
      const auto back = [y](double u) { return Point{(u + y) * kHalf, (y - u) * kHalf}; };
      out.push_back({back(x[i]), back(x[i + 1])});
    }
  }
  return out;
}

}  // namespace sherd::figure
