#include "methods/vessel/arc.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "methods/statistics/decompose.h"

namespace sherd::vessel {

namespace {

constexpr int kMostSteps = 100;
constexpr double kStraight = 1e-9;

Place mean_of(std::span<const Place> points) {
  Place mean;
  for (const Place& point : points) {
    mean.x += point.x;
    mean.y += point.y;
  }
  const auto n = static_cast<double>(points.size());
  return {mean.x / n, mean.y / n};
}

/// Means of products of the coordinates about the middle of the points.
struct Moments {
  Place mean;
  double xx = 0, yy = 0, xy = 0, xz = 0, yz = 0, zz = 0;

  explicit Moments(std::span<const Place> points) : mean(mean_of(points)) {
    for (const Place& point : points) {
      const double x = point.x - mean.x;
      const double y = point.y - mean.y;
      const double z = x * x + y * y;
      xx += x * x;
      yy += y * y;
      xy += x * y;
      xz += x * z;
      yz += y * z;
      zz += z * z;
    }
    const auto n = static_cast<double>(points.size());
    for (double* sum : {&xx, &yy, &xy, &xz, &yz, &zz}) *sum /= n;
  }
  double z() const { return xx + yy; }
  double determinant() const { return xx * yy - xy * xy; }
};

struct Circle {
  Place centre;
  double radius = 0;
};

/// The least root from 0 upwards of the polynomial in eta of Pratt's or Taubin's fit.
template <class Value, class Slope>
double newton_root(const Value& value, const Slope& slope) {
  double eta = 0;
  double before = std::abs(value(0.0));
  for (int step = 0; step < kMostSteps; ++step) {
    const double next = eta - value(eta) / slope(eta);
    const double size = std::abs(value(next));
    if (!std::isfinite(next) || size >= before) break;
    eta = next;
    before = size;
  }
  return eta;
}

Circle from_eta(const Moments& m, double eta, double more) {
  const double det = eta * eta - eta * m.z() + m.determinant();
  const double a = (m.xz * (m.yy - eta) - m.yz * m.xy) / det / 2;
  const double b = (m.yz * (m.xx - eta) - m.xz * m.xy) / det / 2;
  return {{a + m.mean.x, b + m.mean.y}, std::sqrt(a * a + b * b + m.z() + more)};
}

/// Coefficients that Pratt's and Taubin's polynomials share.
struct Polynomial {
  double a0, a1;

  explicit Polynomial(const Moments& m) {
    const double z = m.z();
    const double det = m.determinant();
    a0 = m.xz * m.xz * m.yy + m.yz * m.yz * m.xx - m.zz * det - 2 * m.xz * m.yz * m.xy + z * z * det;
    a1 = m.zz * z + 4 * det * z - m.xz * m.xz - m.yz * m.yz - z * z * z;
  }
};

Circle taubin(const Moments& m) {
  const Polynomial p(m);
  const double a3 = 4 * m.z();
  const double a2 = -3 * m.z() * m.z() - m.zz;
  const double eta = newton_root([&](double x) { return p.a0 + x * (p.a1 + x * (a2 + x * a3)); },
                                 [&](double x) { return p.a1 + x * (2 * a2 + x * 3 * a3); });
  return from_eta(m, eta, 0);
}

Circle pratt(const Moments& m) {
  const Polynomial p(m);
  const double a2 = 4 * m.determinant() - 3 * m.z() * m.z() - m.zz;
  const double eta = newton_root([&](double x) { return p.a0 + x * (p.a1 + x * (a2 + 4 * x * x)); },
                                 [&](double x) { return p.a1 + x * (2 * a2 + 16 * x * x); });
  return from_eta(m, eta, 2 * eta);
}

Circle kasa(const Moments& m) { return from_eta(m, 0, 0); }

/// a (x^2 + y^2) + b x + c y + d = 0 with a^2 + b^2 + c^2 + d^2 = 1, in the coordinates as given: moving the points
/// alters it.
Circle unit(std::span<const Place> points) {
  statistics::Matrix products(4, 4);
  for (const Place& point : points) {
    const double row[4] = {point.x * point.x + point.y * point.y, point.x, point.y, 1};
    for (std::size_t i = 0; i < 4; ++i) {
      for (std::size_t j = 0; j < 4; ++j) products(i, j) += row[i] * row[j];
    }
  }
  const statistics::Matrix vectors = statistics::symmetric_eigen(products).vectors;
  const double a = vectors(0, 3);
  const double b = vectors(1, 3) / a;
  const double c = vectors(2, 3) / a;
  const double d = vectors(3, 3) / a;
  return {{-b / 2, -c / 2}, std::sqrt((b * b + c * c) / 4 - d)};
}

CircleFit as_fit(std::string name, const Circle& circle, std::span<const Place> points) {
  double squares = 0;
  for (const Place& point : points) {
    const double gap = std::hypot(point.x - circle.centre.x, point.y - circle.centre.y) - circle.radius;
    squares += gap * gap;
  }
  return {std::move(name), circle.centre, circle.radius, std::sqrt(squares / static_cast<double>(points.size()))};
}

}  // namespace

Result<void> check_points(std::span<const Place> points) {
  for (const Place& point : points) {
    if (!std::isfinite(point.x) || !std::isfinite(point.y))
      return fail("not_a_number", "a point of the arc has a coordinate that is not a number",
                  "give x and y of each point in mm");
  }
  if (points.size() < 3) {
    return fail(
        "too_few_points",
        std::to_string(points.size()) + (points.size() == 1 ? " point does" : " points do") + " not settle a circle",
        "give at least three points along the rim, better ten or more");
  }
  const Moments m(points);
  if (m.z() <= 0) return fail("same_point", "all points lie in one place", "give points along the rim");
  // The lesser eigenvalue of the spread: across the line that they lie closest to.
  const double half = m.z() / 2;
  const double across = half - std::sqrt(std::max(0.0, half * half - m.determinant()));
  if (across <= kStraight * kStraight * m.z())
    return fail("straight_line", "the points lie in a straight line, on no circle",
                "the arc is too short or too coarsely read: read it with finer steps, or measure chord and sagitta");
  return {};
}

Result<CircleFit> fit_circle(std::span<const Place> points, FitMethod method) {
  SHERD_CHECK(check_points(points));
  const Moments moments(points);
  CircleFit fit;
  switch (method) {
    case FitMethod::kasa:
      fit = as_fit("kasa", kasa(moments), points);
      break;
    case FitMethod::unit:
      fit = as_fit("unit", unit(points), points);
      break;
    case FitMethod::pratt:
      fit = as_fit("pratt", pratt(moments), points);
      break;
    case FitMethod::taubin:
      fit = as_fit("taubin", taubin(moments), points);
      break;
    case FitMethod::geometric: {
      const std::vector<std::vector<Place>> one{{points.begin(), points.end()}};
      SHERD_TRY(const CommonCircle common, fit_common(one));
      fit = as_fit("geometric", {common.centres.front(), common.radius_mm}, points);
      break;
    }
  }
  if (!std::isfinite(fit.radius_mm) || !std::isfinite(fit.centre.x) || fit.radius_mm <= 0)
    return fail("no_circle", "no circle comes out of these points by the " + fit.method + " fit",
                "look for a point that was read wrongly");
  return fit;
}

double circle_share(std::span<const Place> points, const Place& centre) {
  std::vector<double> angles;
  for (const Place& point : points) angles.push_back(std::atan2(point.y - centre.y, point.x - centre.x));
  std::ranges::sort(angles);
  std::vector<double> gaps;
  for (std::size_t i = 1; i < angles.size(); ++i) gaps.push_back(angles[i] - angles[i - 1]);
  gaps.push_back(angles.front() + 2 * std::numbers::pi - angles.back());
  std::ranges::sort(gaps);
  const double widest = gaps.back();
  if (points.size() >= 8 && widest <= 2 * gaps[gaps.size() / 2]) return 1;
  return 1 - widest / (2 * std::numbers::pi);
}

}  // namespace sherd::vessel
