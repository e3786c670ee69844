#include "methods/vessel/polyline.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace sherd::vessel {

namespace {

double cross(const OutlinePoint& o, const OutlinePoint& a, const OutlinePoint& b) {
  return (a.r_mm - o.r_mm) * (b.z_mm - o.z_mm) - (a.z_mm - o.z_mm) * (b.r_mm - o.r_mm);
}

bool apart(double a0, double a1, double b0, double b1) {
  return std::max(a0, a1) < std::min(b0, b1) || std::max(b0, b1) < std::min(a0, a1);
}

/// Where the stretches a-b and c-d meet. Of stretches along one line their first common point.
std::optional<OutlinePoint> meeting(const OutlinePoint& a, const OutlinePoint& b, const OutlinePoint& c,
                                    const OutlinePoint& d) {
  if (apart(a.r_mm, b.r_mm, c.r_mm, d.r_mm) || apart(a.z_mm, b.z_mm, c.z_mm, d.z_mm)) return std::nullopt;
  const double c_side = cross(a, b, c);
  const double d_side = cross(a, b, d);
  const double a_side = cross(c, d, a);
  const double b_side = cross(c, d, b);
  if ((c_side > 0 && d_side > 0) || (c_side < 0 && d_side < 0)) return std::nullopt;
  if ((a_side > 0 && b_side > 0) || (a_side < 0 && b_side < 0)) return std::nullopt;
  if (a_side == b_side) return a_side == 0 && c_side == 0 ? std::optional(c) : std::nullopt;
  const double t = a_side / (a_side - b_side);
  return OutlinePoint{a.r_mm + t * (b.r_mm - a.r_mm), a.z_mm + t * (b.z_mm - a.z_mm)};
}

/// How far along a-b the point nearest to p lies, 0..1.
double share_along(const OutlinePoint& a, const OutlinePoint& b, const OutlinePoint& p) {
  const double dr = b.r_mm - a.r_mm;
  const double dz = b.z_mm - a.z_mm;
  const double square = dr * dr + dz * dz;
  if (square <= 0) return 0;
  return std::clamp(((p.r_mm - a.r_mm) * dr + (p.z_mm - a.z_mm) * dz) / square, 0.0, 1.0);
}

OutlinePoint between(const OutlinePoint& a, const OutlinePoint& b, double t) {
  return {a.r_mm + t * (b.r_mm - a.r_mm), a.z_mm + t * (b.z_mm - a.z_mm), b.conjectured};
}

/// Marks between two kept points those that the simplified line needs.
void keep_farthest(const Outline& line, std::size_t begin, std::size_t end, double tolerance, std::vector<bool>& keep) {
  std::vector<std::pair<std::size_t, std::size_t>> open{{begin, end}};
  while (!open.empty()) {
    const auto [first, last] = open.back();
    open.pop_back();
    double farthest = tolerance;
    std::size_t at = first;
    for (std::size_t i = first + 1; i < last; ++i) {
      const double t = share_along(line[first], line[last], line[i]);
      const double gap = distance(line[i], between(line[first], line[last], t));
      if (gap > farthest) {
        farthest = gap;
        at = i;
      }
    }
    if (at == first) continue;
    keep[at] = true;
    open.emplace_back(first, at);
    open.emplace_back(at, last);
  }
}

}  // namespace

double distance(const OutlinePoint& a, const OutlinePoint& b) { return std::hypot(a.r_mm - b.r_mm, a.z_mm - b.z_mm); }

double length_of(std::span<const OutlinePoint> line) {
  double length = 0;
  for (std::size_t i = 1; i < line.size(); ++i) length += distance(line[i - 1], line[i]);
  return length;
}

std::vector<double> lengths_along(std::span<const OutlinePoint> line) {
  std::vector<double> along;
  along.reserve(line.size());
  double length = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (i > 0) length += distance(line[i - 1], line[i]);
    along.push_back(length);
  }
  return along;
}

OutlinePoint point_at(std::span<const OutlinePoint> line, std::span<const double> along, double length) {
  if (length <= 0) return line.front();
  const auto above = std::ranges::lower_bound(along, length);
  if (above == along.end()) return line.back();
  const auto i = static_cast<std::size_t>(above - along.begin());
  if (i == 0) return line.front();
  const double step = along[i] - along[i - 1];
  return between(line[i - 1], line[i], step > 0 ? (length - along[i - 1]) / step : 1.0);
}

Outline resampled(std::span<const OutlinePoint> line, std::size_t count) {
  const std::vector<double> along = lengths_along(line);
  Outline out;
  out.reserve(count);
  std::size_t i = 1;
  for (std::size_t k = 0; k < count; ++k) {
    const double length = along.back() * static_cast<double>(k) / static_cast<double>(count - 1);
    while (i + 1 < line.size() && along[i] < length) ++i;
    if (line.size() < 2) {
      out.push_back(line.front());
      continue;
    }
    const double step = along[i] - along[i - 1];
    out.push_back(between(line[i - 1], line[i], step > 0 ? std::clamp((length - along[i - 1]) / step, 0.0, 1.0) : 1.0));
  }
  return out;
}

Nearest nearest_on(std::span<const OutlinePoint> line, const OutlinePoint& to) {
  Nearest best;
  best.distance = line.empty() ? std::numeric_limits<double>::infinity() : distance(line.front(), to);
  if (!line.empty()) best.point = line.front();
  double length = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double t = share_along(line[i - 1], line[i], to);
    const OutlinePoint point = between(line[i - 1], line[i], t);
    const double gap = distance(point, to);
    const double step = distance(line[i - 1], line[i]);
    if (gap < best.distance) best = {gap, length + t * step, point};
    length += step;
  }
  return best;
}

std::optional<OutlinePoint> crossing(std::span<const OutlinePoint> a, std::span<const OutlinePoint> b) {
  for (std::size_t i = 1; i < a.size(); ++i) {
    for (std::size_t j = 1; j < b.size(); ++j) {
      if (const auto place = meeting(a[i - 1], a[i], b[j - 1], b[j])) return place;
    }
  }
  return std::nullopt;
}

std::optional<OutlinePoint> self_crossing(std::span<const OutlinePoint> line) {
  for (std::size_t i = 1; i < line.size(); ++i) {
    for (std::size_t j = i + 2; j < line.size(); ++j) {
      const bool ends = i == 1 && j + 1 == line.size();
      const auto place = meeting(line[i - 1], line[i], line[j - 1], line[j]);
      if (place && !(ends && distance(line.front(), line.back()) < 1e-9)) return place;
    }
  }
  return std::nullopt;
}

Outline simplified(const Outline& line, double tolerance) {
  if (line.size() < 3) return line;
  std::vector<bool> keep(line.size(), false);
  keep.front() = keep.back() = true;
  for (std::size_t i = 2; i < line.size(); ++i) {
    if (line[i].conjectured != line[i - 1].conjectured) keep[i - 1] = true;
  }
  std::size_t first = 0;
  const std::vector<bool> fixed = keep;
  for (std::size_t i = 1; i < line.size(); ++i) {
    if (!fixed[i]) continue;
    keep_farthest(line, first, i, tolerance, keep);
    first = i;
  }
  Outline out;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (keep[i]) out.push_back(line[i]);
  }
  return out;
}

}  // namespace sherd::vessel
