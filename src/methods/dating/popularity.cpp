#include "methods/dating/popularity.h"

#include <cmath>
#include <numbers>

namespace sherd::dating {

namespace {

/// The range as a stretch of time: [start, end), full production [full, over).
struct Stretch {
  double start, full, over, end;

  explicit Stretch(const Production& production)
      : start(static_cast<double>(production.range.earliest->value)),
        full(static_cast<double>(production.full.earliest.value_or(*production.range.earliest).value)),
        over(static_cast<double>(production.full.latest.value_or(*production.range.latest).value + 1)),
        end(static_cast<double>(production.range.latest->value + 1)) {}
};

/// Area under a line that rises from 0 at the start to 1, stays there and falls to 0 at the end.
double trapezoid_before(const Stretch& s, double t) {
  const double rise = s.full - s.start;
  const double fall = s.end - s.over;
  const double area = rise / 2 + (s.over - s.full) + fall / 2;
  double before = 0;
  if (t < s.full) {
    before = (t - s.start) * (t - s.start) / (2 * rise);
  } else if (t <= s.over) {
    before = rise / 2 + (t - s.full);
  } else {
    before = area - (s.end - t) * (s.end - t) / (2 * fall);
  }
  return before / area;
}

/// Standard normal distribution between 0 and z, as a part of that between 0 and 2.
double part_of_two_deviations(double z) { return std::erf(z / std::numbers::sqrt2) / std::erf(std::numbers::sqrt2); }

/// Two half normals that meet at the peak; each ends two of its standard deviations away.
double popularity_before(const Stretch& s, double t) {
  const double peak = (s.full + s.over) / 2;
  const double left = (peak - s.start) / (s.end - s.start);
  if (t < peak) return left * (1 - part_of_two_deviations(2 * (peak - t) / (peak - s.start)));
  return left + (1 - left) * part_of_two_deviations(2 * (t - peak) / (s.end - peak));
}

}  // namespace

bool is_sound(const Production& production) {
  if (!production.range.closed()) return false;
  const Stretch s(production);
  return s.start <= s.full && s.full < s.over && s.over <= s.end;
}

double made_before(CurveShape shape, const Production& production, std::int64_t year) {
  const Stretch s(production);
  const auto t = static_cast<double>(year);
  if (t <= s.start) return 0;
  if (t >= s.end) return 1;
  switch (shape) {
    case CurveShape::flat:
      break;
    case CurveShape::trapezoid:
      return trapezoid_before(s, t);
    case CurveShape::popularity:
      return popularity_before(s, t);
  }
  return (t - s.start) / (s.end - s.start);
}

}  // namespace sherd::dating
