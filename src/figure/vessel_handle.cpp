#include "figure/vessel_handle.h"

#include <algorithm>
#include <cmath>

namespace sherd::figure {
namespace {

constexpr double kOutlineStepMm = 0.1, kHandleStepMm = 0.15;  // how finely the two are followed
constexpr double kMarkFromMm = 0.4, kMarkToMm = 1.6;          // of a mark of the cut, from the handle

/// Visits points along a line at most `step` apart, those at its corners among them.
template <class Visit>
void follow(const std::vector<Point>& line, double step, Visit visit) {
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Point a = line[i - 1], b = line[i];
    const int steps = std::max(1, static_cast<int>(std::hypot(b.x - a.x, b.y - a.y) / step));
    for (int k = i == 1 ? 0 : 1; k <= steps; ++k)
      visit(Point{a.x + (b.x - a.x) * k / steps, a.y + (b.y - a.y) * k / steps});
  }
}

/// The stretches of a line along which `keep` is true.
template <class Keep>
std::vector<std::vector<Point>> kept(const std::vector<Point>& line, double step, Keep keep) {
  std::vector<std::vector<Point>> out(1);
  follow(line, step, [&](Point p) {
    if (keep(p)) {
      out.back().push_back(p);
    } else if (!out.back().empty()) {
      out.emplace_back();
    }
  });
  std::erase_if(out, [](const auto& part) { return part.size() < 2; });
  return out;
}

}  // namespace

std::vector<std::vector<Point>> clear_of_handle(const std::vector<Point>& outline, const std::vector<Point>& handle) {
  if (handle.empty()) return {outline};
  return kept(outline, kOutlineStepMm, [&](Point p) {
    const std::vector<double> x = crossings(handle, p.y);
    return std::ranges::count_if(x, [&](double at) { return at > p.x; }) % 2 == 0;
  });
}

std::vector<std::vector<Point>> handle_outside_wall(const VesselShape& shape) {
  return kept(shape.handle, kHandleStepMm, [&](Point p) {
    const auto edge = shape.outer_at(p.y);
    return !edge || p.x >= *edge - 0.02;
  });
}

std::vector<Segment> handle_cut_marks(const VesselShape& shape) {
  const std::vector<double> x = crossings(shape.handle, shape.cut_y + 0.01);
  if (x.size() < 2) return {};
  const double y = shape.cut_y, inner = x[x.size() - 2], outer = x.back();
  return {{{outer + kMarkFromMm, y}, {outer + kMarkToMm, y}}, {{inner - kMarkToMm, y}, {inner - kMarkFromMm, y}}};
}

}  // namespace sherd::figure
