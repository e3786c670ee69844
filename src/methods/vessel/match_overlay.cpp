#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "methods/vessel/match_parts.h"

namespace sherd::vessel {

namespace {

constexpr int kSteps = 12;
constexpr double kEndWeight = 4;  // points' worth of a rim or base that must lie on a rim or base

/// The nearest place of a side.
struct Foot {
  double gap = 0;
  double normal_r = 0, normal_z = 0;  ///< from the foot towards the point, of length 1
  double along = 0;
};

/// Looks at stretches that may be nearer than what was found so far, beginning with the one that was nearest in the
/// step before (`hint`, which is set anew).
class FootSearch {
 public:
  FootSearch(const KnownSide& side, double size, const OutlinePoint& point)
      : side_(side), size_(size), r_(point.r_mm / size), z_(point.z_mm / size) {}

  Foot find(std::size_t& hint) {
    if (hint > 0) look(hint);
    for (std::size_t i = 1; i < side_.points.size(); ++i) {
      const OutlinePoint& a = side_.points[i - 1];
      if (std::abs(r_ - a.r_mm) > reach_ || std::abs(z_ - a.z_mm) > reach_) continue;
      look(i);
    }
    hint = nearest_;
    return foot();
  }

 private:
  void look(std::size_t i) {
    const OutlinePoint& a = side_.points[i - 1];
    const double dr = side_.points[i].r_mm - a.r_mm;
    const double dz = side_.points[i].z_mm - a.z_mm;
    const double square = dr * dr + dz * dz;
    const double t = square > 0 ? std::clamp(((r_ - a.r_mm) * dr + (z_ - a.z_mm) * dz) / square, 0.0, 1.0) : 0.0;
    const double er = r_ - a.r_mm - t * dr;
    const double ez = z_ - a.z_mm - t * dz;
    const double gap = er * er + ez * ez;
    if (gap >= best_) return;
    best_ = gap;
    reach_ = std::sqrt(gap) + side_.longest;
    nearest_ = i;
    t_ = t;
    er_ = er;
    ez_ = ez;
  }

  Foot foot() const {
    const double distance = std::sqrt(best_);
    Foot found{distance * size_, 0, 0, 0};
    const OutlinePoint& a = side_.points[nearest_ - 1];
    const OutlinePoint& b = side_.points[nearest_];
    const double length = side_.along[nearest_] - side_.along[nearest_ - 1];
    found.along = (side_.along[nearest_ - 1] + t_ * length) * size_;
    if (distance > 1e-9) {
      found.normal_r = er_ / distance;
      found.normal_z = ez_ / distance;
    } else if (length > 0) {
      found.normal_r = (a.z_mm - b.z_mm) / length;
      found.normal_z = (b.r_mm - a.r_mm) / length;
    }
    return found;
  }

  const KnownSide& side_;
  double size_, r_, z_;
  double best_ = std::numeric_limits<double>::infinity(), reach_ = best_;
  std::size_t nearest_ = 1;
  double t_ = 0, er_ = 0, ez_ = 0;
};

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
      if (on->points.size() < 2) continue;
      std::vector<std::size_t>& hints = on == &reference_.outer ? outer_hints_ : inner_hints_;
      hints.resize(side->size(), 0);
      for (std::size_t i = 0; i < side->size(); ++i) {
        const OutlinePoint now = moved((*side)[i], fragment_.middle, laying_);
        const Foot foot = FootSearch(*on, laying_.size, now).find(hints[i]);
        if (on == &reference_.outer) first = std::min(first, foot.along);
        add(normal, now, foot.normal_r, foot.normal_z, foot.gap, 1);
        squares += foot.gap * foot.gap;
        weights += 1;
      }
    }
    for (const auto& [has, point, on] :
         {std::tuple(fragment_.has_rim && reference_.has_rim, &fragment_.rim, &reference_.outer.points.back()),
          std::tuple(fragment_.has_base && reference_.has_base, &fragment_.base, &reference_.outer.points.front())}) {
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
  std::vector<std::size_t> outer_hints_, inner_hints_;
};

}  // namespace

KnownSide::KnownSide(const Outline& side) : points(side), along(lengths_along(side)) {
  for (std::size_t i = 1; i < along.size(); ++i) longest = std::max(longest, along[i] - along[i - 1]);
}

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
