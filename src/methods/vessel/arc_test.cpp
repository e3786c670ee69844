#include "methods/vessel/arc.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "base/random.h"

namespace sherd::vessel {
namespace {

using Points = std::vector<Place>;

/// The six points of W. Gander, G. H. Golub & R. Strebel 1994, "Least-squares fitting of circles and ellipses", BIT
/// 34: 558-578; their printed circles, to four digits and from memory: geometric 4.7398, 2.9835, r 4.7142; algebraic
/// 5.3794, 7.2532, r 3.0370. Further digits, and Kasa, Pratt and Taubin: own calculation in R, double precision.
const Points kGander{{1, 7}, {2, 6}, {5, 8}, {7, 7}, {9, 5}, {3, 7}};

CircleFit fitted(const Points& points, FitMethod method) {
  auto fit = fit_circle(points, method);
  EXPECT_TRUE(fit.has_value()) << fit.error().message;
  return fit.value_or(CircleFit{});
}

void expect_circle(const CircleFit& fit, double x, double y, double r, double within) {
  EXPECT_NEAR(fit.centre.x, x, within) << fit.method;
  EXPECT_NEAR(fit.centre.y, y, within) << fit.method;
  EXPECT_NEAR(fit.radius_mm, r, within) << fit.method;
}

TEST(Circle, of_the_published_points_is_the_published_one_by_each_method) {
  expect_circle(fitted(kGander, FitMethod::geometric), 4.7398, 2.9835, 4.7142, 5e-5);
  expect_circle(fitted(kGander, FitMethod::unit), 5.3794, 7.2532, 3.0370, 5e-5);
}

TEST(Circle, agrees_with_calculation_elsewhere_to_many_digits) {
  expect_circle(fitted(kGander, FitMethod::geometric), 4.739782411, 2.983532699, 4.714226038, 1e-5);
  expect_circle(fitted(kGander, FitMethod::unit), 5.379413317, 7.253198477, 3.037041458, 1e-8);
  expect_circle(fitted(kGander, FitMethod::kasa), 4.742331288, 3.835122699, 4.108761522, 1e-8);
  expect_circle(fitted(kGander, FitMethod::pratt), 4.615481517, 2.807354397, 4.911301597, 1e-8);
  expect_circle(fitted(kGander, FitMethod::taubin), 4.613932694, 2.795209347, 4.879212846, 1e-8);
  const double rms = fitted(kGander, FitMethod::geometric).rms_mm;
  EXPECT_NEAR(6 * rms * rms, 1.227599078, 1e-8);
}

Points arc(double x, double y, double r, double from_deg, double to_deg, int n) {
  Points points;
  for (int i = 0; i < n; ++i) {
    const double angle = (from_deg + (to_deg - from_deg) * i / (n - 1)) * std::numbers::pi / 180;
    points.push_back({x + r * std::cos(angle), y + r * std::sin(angle)});
  }
  return points;
}

TEST(Circle, of_exact_points_comes_back_by_every_method_wherever_it_lies) {
  Random random(7);
  for (int trial = 0; trial < 200; ++trial) {
    const double r = 5 + 400 * random.uniform();
    const double x = 1000 * random.uniform() - 500;
    const double y = 1000 * random.uniform() - 500;
    const double from = 360 * random.uniform();
    const Points points =
        arc(x, y, r, from, from + 20 + 320 * random.uniform(), 4 + static_cast<int>(random.below(40)));
    for (const FitMethod method : {FitMethod::geometric, FitMethod::taubin, FitMethod::pratt, FitMethod::kasa})
      expect_circle(fitted(points, method), x, y, r, 1e-6 * (r + 500));
  }
}

TEST(Circle, geometric_fit_is_at_a_least_of_the_squares) {
  const CircleFit fit = fitted(kGander, FitMethod::geometric);
  const auto squares = [](double x, double y, double r) {
    double sum = 0;
    for (const Place& p : kGander) sum += std::pow(std::hypot(p.x - x, p.y - y) - r, 2);
    return sum;
  };
  const double least = squares(fit.centre.x, fit.centre.y, fit.radius_mm);
  for (const double h : {1e-3, 1e-2, 0.1}) {
    for (int axis = 0; axis < 3; ++axis) {
      for (const double sign : {-1.0, 1.0}) {
        const double d = sign * h;
        EXPECT_GT(squares(fit.centre.x + (axis == 0 ? d : 0), fit.centre.y + (axis == 1 ? d : 0),
                          fit.radius_mm + (axis == 2 ? d : 0)),
                  least);
      }
    }
  }
}

TEST(Circle, kasa_fit_of_a_short_arc_is_too_small_and_the_geometric_one_is_not) {
  // Known of the method: N. Chernov 2010, Circular and Linear Regression, chapter 5.
  Random random(11);
  double kasa = 0;
  double geometric = 0;
  constexpr int kTrials = 400;
  for (int trial = 0; trial < kTrials; ++trial) {
    Points points = arc(0, 0, 100, 0, 36, 20);
    for (Place& p : points) {
      const double noise = 1 + 0.005 * random.normal();
      p = {p.x * noise, p.y * noise};
    }
    kasa += 1 / fitted(points, FitMethod::kasa).radius_mm / kTrials;
    geometric += 1 / fitted(points, FitMethod::geometric).radius_mm / kTrials;
  }
  EXPECT_LT(1 / kasa, 98.5);
  EXPECT_NEAR(1 / geometric, 100, 0.7);
}

std::string code_of(const Points& points) {
  const auto fit = fit_circle(points, FitMethod::geometric);
  return fit ? "" : fit.error().code;
}

TEST(Circle, is_refused_with_a_clear_error_where_points_settle_none) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(code_of({}), "too_few_points");
  EXPECT_EQ(code_of({{1, 2}, {3, 4}}), "too_few_points");
  EXPECT_EQ(code_of({{1, 1}, {2, 2}, {3, 3}}), "straight_line");
  EXPECT_EQ(code_of({{0.1, 0.1}, {0.2, 0.2}, {0.3, 0.3}, {100, 100}}), "straight_line");
  EXPECT_EQ(code_of({{5, 5}, {5, 5}, {5, 5}}), "same_point");
  EXPECT_EQ(code_of({{1, 1}, {2, nan}, {3, 3}}), "not_a_number");
  EXPECT_EQ(code_of({{1, 1}, {std::numeric_limits<double>::infinity(), 2}, {3, 3}}), "not_a_number");
  EXPECT_EQ(fit_circle(Points{{1, 2}, {3, 4}}, FitMethod::kasa).error().message, "2 points do not settle a circle");
}

TEST(CircleShare, is_the_part_of_the_circle_between_the_outermost_points) {
  EXPECT_NEAR(circle_share(arc(3, 4, 50, 350, 440, 19), {3, 4}), 0.25, 1e-12);
  EXPECT_NEAR(circle_share(arc(0, 0, 50, 0, 270, 40), {0, 0}), 0.75, 1e-12);
}

TEST(CircleShare, is_whole_where_points_go_all_the_way_round) {
  EXPECT_EQ(circle_share(arc(0, 0, 80, 0, 350, 36), {0, 0}), 1);
}

TEST(CommonCircle, of_three_arcs_has_their_radius_and_their_own_centres) {
  const std::vector<Points> arcs{arc(0, 0, 90, 10, 40, 8), arc(500, 20, 90, 100, 150, 12), arc(-70, 3, 90, 0, 25, 6)};
  const auto common = fit_common(arcs);
  ASSERT_TRUE(common.has_value());
  EXPECT_NEAR(common->radius_mm, 90, 1e-6);
  EXPECT_NEAR(common->centres[1].x, 500, 1e-6);
  EXPECT_NEAR(common->centres[2].y, 3, 1e-6);
}

}  // namespace
}  // namespace sherd::vessel
