#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "methods/vessel/match_parts.h"

namespace sherd::vessel {

namespace {

constexpr double kEndShare = 0.06;  // of the fragment's length by which its rim may miss a rim in the first pass

/// Points of the fragment about their middle.
struct Centred {
  std::vector<double> r, z;
  double mean_r = 0, mean_z = 0, squares = 0;

  explicit Centred(const Outline& line) {
    const auto n = static_cast<double>(line.size());
    for (const OutlinePoint& point : line) {
      mean_r += point.r_mm / n;
      mean_z += point.z_mm / n;
    }
    for (const OutlinePoint& point : line) {
      r.push_back(point.r_mm - mean_r);
      z.push_back(point.z_mm - mean_z);
      squares += r.back() * r.back() + z.back() * z.back();
    }
  }
};

/// A reference sampled at the fragment's step.
struct Sampled {
  std::vector<double> r, z;

  Sampled(const Outline& line, double length, double step, double size) {
    const auto steps = static_cast<std::size_t>(std::floor(length * size / step + 1e-9));
    r.reserve(steps + 1);
    z.reserve(steps + 1);
    std::size_t i = 1;
    double behind = 0;  // length up to point i - 1
    double next = distance(line[0], line[1]);
    for (std::size_t k = 0; k <= steps; ++k) {
      const double at = static_cast<double>(k) * step / size;
      while (i + 1 < line.size() && behind + next < at) {
        behind += next;
        ++i;
        next = distance(line[i - 1], line[i]);
      }
      const double t = next > 0 ? std::min(1.0, (at - behind) / next) : 1.0;
      r.push_back(size * (line[i - 1].r_mm + t * (line[i].r_mm - line[i - 1].r_mm)));
      z.push_back(size * (line[i - 1].z_mm + t * (line[i].z_mm - line[i - 1].z_mm)));
    }
  }
};

}  // namespace

std::optional<Laying> best_position(const FragmentParts& fragment, const Reference& reference, double size,
                                    const Limits& limits, const MatchSettings& settings) {
  const std::size_t n = fragment.outer.size();
  double step = fragment.length_mm / static_cast<double>(n - 1);
  const double length = reference.length_mm * size;
  if (length < 0.9 * fragment.length_mm) return std::nullopt;
  step = std::min(step, length / static_cast<double>(n - 1));
  const Centred piece(fragment.outer);
  const Sampled whole(reference.outer, reference.length_mm, step, size);
  if (whole.r.size() < n) return std::nullopt;
  std::size_t first = 0;
  std::size_t last = whole.r.size() - n;
  const auto slack = static_cast<std::size_t>(std::ceil(kEndShare * static_cast<double>(n)));
  if (settings.only_rim_at_rim && fragment.has_rim && reference.has_rim) first = last > slack ? last - slack : 0;
  if (settings.only_rim_at_rim && fragment.has_base && reference.has_base) last = std::min(last, slack);
  std::optional<Laying> best;
  const auto count = static_cast<double>(n);
  for (std::size_t a = first; a <= last; ++a) {
    double sum_r = 0, sum_z = 0, squares = 0, along = 0, across = 0;
    for (std::size_t j = 0; j < n; ++j) {
      const double r = whole.r[a + j];
      const double z = whole.z[a + j];
      sum_r += r;
      sum_z += z;
      squares += r * r + z * z;
      along += r * piece.r[j] + z * piece.z[j];
      across += r * piece.z[j] - z * piece.r[j];
    }
    squares -= (sum_r * sum_r + sum_z * sum_z) / count;
    Laying laying;
    laying.tilt = std::clamp(std::atan2(across, along), -limits.tilt_most, limits.tilt_most);
    const double turned = along * std::cos(laying.tilt) + across * std::sin(laying.tilt);
    double gap = std::max(0.0, (squares + piece.squares - 2 * turned) / count);
    const double shift = sum_r / count - piece.mean_r;
    laying.r = std::clamp(shift, -limits.shift_most, limits.shift_most);
    gap += (shift - laying.r) * (shift - laying.r);
    laying.z = sum_z / count - piece.mean_z;
    laying.cost = cost_of(gap, laying.tilt, laying.r, limits);
    if (best && best->cost <= laying.cost) continue;
    laying.gap_mm = std::sqrt(gap);
    laying.along = static_cast<double>(a) * step / length;
    best = laying;
  }
  if (!best) return best;
  best->size = size;
  best->reference = reference.index;
  return best;
}

}  // namespace sherd::vessel
