#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "methods/vessel/match_parts.h"

namespace sherd::vessel {

namespace {

constexpr int kSteps = 12;
constexpr double kEndWeight = 4;  // points' worth of a rim or base that must lie on a rim or base

/// Nearest stretch of a line, looked for near the one of the step before and then everywhere where that is not good.
struct Foot {
  double gap = std::numeric_limits<double>::infinity();
  double normal_r = 0, normal_z = 0;  // from the foot towards the point, of length 1
  double along = 0;
};

Foot foot_on(const Outline& line, double size, const OutlinePoint& point) {
  Foot foot;
  double best = std::numeric_limits<double>::infinity();
  double behind = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double ar = line[i - 1].r_mm * size;
    const double az = line[i - 1].z_mm * size;
    const double dr = line[i].r_mm * size - ar;
    const double dz = line[i].z_mm * size - az;
    const double square = dr * dr + dz * dz;
    const double pr = point.r_mm - ar;
    const double pz = point.z_mm - az;
    const double t = square > 0 ? std::clamp((pr * dr + pz * dz) / square, 0.0, 1.0) : 0.0;
    const double er = pr - t * dr;
    const double ez = pz - t * dz;
    const double gap = er * er + ez * ez;
    if (gap < best) {
      best = gap;
      const double length = std::sqrt(square);
      const double distance = std::sqrt(gap);
      foot.gap = distance;
      foot.along = behind + t * length;
      if (distance > 1e-9) {
        foot.normal_r = er / distance;
        foot.normal_z = ez / distance;
      } else if (length > 0) {
        foot.normal_r = -dz / length;
        foot.normal_z = dr / length;
      }
    }
    behind += std::sqrt(square);
  }
  return foot;
}

/// Normal equations of (tilt, r, z).
struct Normal {
  std::array<std::array<double, 3>, 3> matrix{};
  std::array<double, 3> right{};

  void add(const std::array<double, 3>& slope, double gap, double weight) {
    for (std::size_t i = 0; i < 3; ++i) {
      for (std::size_t j = 0; j < 3; ++j) matrix[i][j] += weight * slope[i] * slope[j];
      right[i] -= weight * slope[i] * gap;
    }
  }
  /// By Gauss with the greatest pivot; 0 where it has no solution.
  std::array<double, 3> solve() const {
    auto a = matrix;
    auto b = right;
    for (std::size_t i = 0; i < 3; ++i) {
      std::size_t pivot = i;
      for (std::size_t k = i + 1; k < 3; ++k) {
        if (std::abs(a[k][i]) > std::abs(a[pivot][i])) pivot = k;
      }
      if (std::abs(a[pivot][i]) < 1e-12) return {};
      std::swap(a[i], a[pivot]);
      std::swap(b[i], b[pivot]);
      for (std::size_t k = i + 1; k < 3; ++k) {
        const double factor = a[k][i] / a[i][i];
        for (std::size_t j = i; j < 3; ++j) a[k][j] -= factor * a[i][j];
        b[k] -= factor * b[i];
      }
    }
    std::array<double, 3> x{};
    for (std::size_t i = 3; i-- > 0;) {
      x[i] = b[i];
      for (std::size_t j = i + 1; j < 3; ++j) x[i] -= a[i][j] * x[j];
      x[i] /= a[i][i];
    }
    return x;
  }
};

class Overlay {
 public:
  Overlay(const FragmentParts& fragment, const Reference& reference, const Limits& limits, Laying start)
      : fragment_(fragment), reference_(reference), limits_(limits), laying_(start) {}

  Laying run() {
    Laying best = laying_;
    best.cost = std::numeric_limits<double>::infinity();
    for (int step = 0; step < kSteps; ++step) {
      const Normal normal = look();
      if (laying_.cost < best.cost) best = laying_;
      const auto move = normal.solve();
      laying_.tilt = std::clamp(laying_.tilt + move[0], -limits_.tilt_most, limits_.tilt_most);
      laying_.r = std::clamp(laying_.r + move[1], -limits_.shift_most, limits_.shift_most);
      laying_.z += move[2];
      if (std::abs(move[0]) < 1e-5 && std::abs(move[1]) < 1e-3 && std::abs(move[2]) < 1e-3) break;
    }
    look();
    return laying_.cost < best.cost ? laying_ : best;
  }

 private:
  /// Gaps as the fragment lies now: cost, place along the reference, and the equations of the next step.
  Normal look() {
    Normal normal;
    double squares = 0;
    double weights = 0;
    double first = std::numeric_limits<double>::infinity();
    for (const auto& [side, on] :
         {std::pair(&fragment_.outer, &reference_.outer), std::pair(&fragment_.inner, &reference_.inner)}) {
      if (on->size() < 2) continue;
      for (const OutlinePoint& point : *side) {
        const OutlinePoint now = moved(point, fragment_.middle, laying_);
        const Foot foot = foot_on(*on, laying_.size, now);
        if (on == &reference_.outer) first = std::min(first, foot.along);
        add(normal, now, foot.normal_r, foot.normal_z, foot.gap, 1);
        squares += foot.gap * foot.gap;
        weights += 1;
      }
    }
    for (const auto& [has, point, on] :
         {std::tuple(fragment_.has_rim && reference_.has_rim, &fragment_.rim, &reference_.outer.back()),
          std::tuple(fragment_.has_base && reference_.has_base, &fragment_.base, &reference_.outer.front())}) {
      if (!has) continue;
      const OutlinePoint now = moved(*point, fragment_.middle, laying_);
      const double r = now.r_mm - on->r_mm * laying_.size;
      const double z = now.z_mm - on->z_mm * laying_.size;
      add(normal, now, 1, 0, r, kEndWeight);
      add(normal, now, 0, 1, z, kEndWeight);
      squares += kEndWeight * (r * r + z * z);
      weights += kEndWeight;
    }
    const double mean = squares / weights;
    laying_.gap_mm = std::sqrt(mean);
    laying_.cost = cost_of(mean, laying_.tilt, laying_.r, limits_);
    laying_.along = first / (reference_.length_mm * laying_.size);
    // What the cost says of tilt and shift, in the units of the sum of squares.
    const double unit = weights * limits_.gap_sd * limits_.gap_sd / limits_.independent;
    normal.add({1, 0, 0}, laying_.tilt, unit / (limits_.tilt_sd * limits_.tilt_sd));
    normal.add({0, 1, 0}, laying_.r, unit / (limits_.shift_sd * limits_.shift_sd));
    return normal;
  }

  /// The slope of a gap along (nr, nz) by tilt, r and z.
  void add(Normal& normal, const OutlinePoint& now, double nr, double nz, double gap, double weight) const {
    const double r = now.r_mm - fragment_.middle.r_mm - laying_.r;
    const double z = now.z_mm - fragment_.middle.z_mm - laying_.z;
    normal.add({nr * z - nz * r, nr, nz}, gap, weight);
  }

  const FragmentParts& fragment_;
  const Reference& reference_;
  const Limits& limits_;
  Laying laying_;
};

}  // namespace

OutlinePoint moved(const OutlinePoint& point, const OutlinePoint& middle, const Laying& laying) {
  const double r = point.r_mm - middle.r_mm;
  const double z = point.z_mm - middle.z_mm;
  return {middle.r_mm + laying.r + r * std::cos(laying.tilt) + z * std::sin(laying.tilt),
          middle.z_mm + laying.z - r * std::sin(laying.tilt) + z * std::cos(laying.tilt), point.conjectured};
}

double cost_of(double gap_square, double tilt, double shift, const Limits& limits) {
  const double by_gap = limits.independent * gap_square / (limits.gap_sd * limits.gap_sd);
  return by_gap + std::pow(tilt / limits.tilt_sd, 2) + std::pow(shift / limits.shift_sd, 2);
}

Laying lay_over(const FragmentParts& fragment, const Reference& reference, Laying start, const Limits& limits) {
  return Overlay(fragment, reference, limits, start).run();
}

}  // namespace sherd::vessel
