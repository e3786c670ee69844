#include "methods/vessel/capacity.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "base/random.h"

namespace sherd::vessel {
namespace {

constexpr double kPi = std::numbers::pi;
using Outline = std::vector<OutlinePoint>;

Section inside(const Outline& points) {
  Section section;
  section.inner = points;
  return section;
}
Capacity must(const Result<Capacity>& capacity) {
  EXPECT_TRUE(capacity.has_value()) << capacity.error().message;
  return capacity.value_or(Capacity{});
}
Capacity holds(const Outline& points, const CapacitySettings& settings = {}) {
  return must(capacity_of({inside(points)}, settings));
}
double cubic_mm(const Outline& points) { return holds(points).capacity_ml * 1000; }

Outline sphere(double radius, int slices) {
  Outline points;
  for (int i = 0; i <= slices; ++i) {
    const double z = 2 * radius * i / slices;
    points.push_back({std::sqrt(std::max(0.0, radius * radius - (z - radius) * (z - radius))), z});
  }
  return points;
}

TEST(Capacity, of_stacked_frusta_is_that_of_a_published_table) {
  // Volumes of a trunk by sections, heights 0, 4.5, 9, 20 and diameters 4.8, 4.1, 3.9, 3.2: 70.13212, 56.56045,
  // 109.2306 (page of a society for tree measurement on frusta of cones); their sum is our own.
  EXPECT_NEAR(cubic_mm({{2.4, 0}, {2.05, 4.5}}), 70.13212, 1e-5);
  EXPECT_NEAR(cubic_mm({{2.05, 0}, {1.95, 4.5}}), 56.56045, 1e-5);
  EXPECT_NEAR(cubic_mm({{1.95, 0}, {1.6, 11}}), 109.2306, 5e-5);
  EXPECT_NEAR(cubic_mm({{2.4, 0}, {2.05, 4.5}, {1.95, 9}, {1.6, 20}}), 235.9231363, 1e-6);
}

TEST(Capacity, of_a_cone_frustum_is_the_formula_of_the_schoolbook) {
  // R 1, r .25, h 5: 6.5625 with pi as 3, so 6.5625 pi / 3.
  EXPECT_NEAR(cubic_mm({{0.25, 0}, {1, 5}}), 6.5625 * kPi / 3, 1e-9);
}

TEST(Capacity, of_a_sphere_in_slices_converges_on_the_sphere_as_calculated) {
  const double exact = 4000 * kPi / 3;
  EXPECT_NEAR(cubic_mm(sphere(10, 10)), 4059.359009, 1e-5);
  EXPECT_NEAR(cubic_mm(sphere(10, 20)), 4152.497922, 1e-5);
  EXPECT_NEAR(cubic_mm(sphere(10, 40)), 4178.773192, 1e-5);
  EXPECT_NEAR(cubic_mm(sphere(10, 100)), 4186.992148, 1e-5);
  EXPECT_NEAR(cubic_mm(sphere(10, 4000)) / exact, 1, 1e-5);
}

TEST(Capacity, of_a_paraboloid_converges_on_half_its_cylinder) {
  const auto paraboloid = [](int slices) {
    Outline points;
    for (int i = 0; i <= slices; ++i) {
      const double z = 20.0 * i / slices;
      points.push_back({10 * std::sqrt(z / 20), z});
    }
    return cubic_mm(points);
  };
  EXPECT_NEAR(paraboloid(5), 3082.944638, 1e-5);
  EXPECT_NEAR(paraboloid(10), 3125.116807, 1e-5);
  EXPECT_NEAR(paraboloid(20), 3137.020079, 1e-5);
  EXPECT_NEAR(paraboloid(2000), 1000 * kPi, 0.01);
}

TEST(Capacity, does_not_depend_on_points_that_add_nothing) {
  const Outline plain{{20, 0}, {40, 60}, {30, 90}};
  Outline more;
  for (std::size_t i = 1; i < plain.size(); ++i) {
    for (int k = 0; k < 10; ++k) {
      const double t = k / 10.0;
      more.push_back({plain[i - 1].r_mm + t * (plain[i].r_mm - plain[i - 1].r_mm),
                      plain[i - 1].z_mm + t * (plain[i].z_mm - plain[i - 1].z_mm)});
    }
  }
  more.push_back(plain.back());
  EXPECT_NEAR(holds(more).capacity_ml, holds(plain).capacity_ml, 1e-9);
}

TEST(Capacity, to_a_fill_line_cuts_the_slice_that_it_runs_through) {
  const Capacity half = holds({{0, 0}, {50, 100}}, {.fill_mm = 50});
  EXPECT_NEAR(half.capacity_ml, kPi * 25 * 25 * 50 / 3 / 1000, 1e-9);
  EXPECT_EQ(half.to_rim, false);
  EXPECT_NEAR(half.rim_diameter_mm, 50, 1e-9);
  EXPECT_EQ(holds({{0, 0}, {50, 100}}, {.fill_mm = 100}).capacity_ml, holds({{0, 0}, {50, 100}}).capacity_ml);
}

TEST(Capacity, of_a_floor_that_rises_in_the_middle_leaves_the_rise_out) {
  // A cylinder of radius 30 and height 50 with a cone of height 10 standing on its floor.
  const double cylinder = kPi * 900 * 50;
  const double cone = kPi * 900 * 10 / 3;
  EXPECT_NEAR(cubic_mm({{0, 10}, {30, 0}, {30, 50}}), cylinder - cone, 1e-6);
  // Filled no higher than half the cone: what lies around it.
  const Capacity low = holds({{0, 10}, {30, 0}, {30, 50}}, {.fill_mm = 5});
  EXPECT_NEAR(low.capacity_ml * 1000, kPi * 900 * 5 - (cone - kPi * 225 * 5 / 3), 1e-6);
}

TEST(Capacity, under_a_wall_that_leans_back_downwards_is_whole) {
  // An inner ledge: a cylinder of radius 40, a ring of triangular section r 30..40, z 40..50 cut into its inside, the
  // under side of which leads outwards and down.
  const Outline overhang{{40, 0}, {40, 60}, {30, 50}, {30, 100}};
  const double below_ledge = kPi * 1600 * 60 - kPi * 10 / 3 * (1600 + 1200 + 900) + kPi * 900 * 50;
  EXPECT_NEAR(cubic_mm(overhang), below_ledge, 1e-6);
}

TEST(Capacity, ends_at_the_highest_point_of_a_rim_that_droops) {
  const Capacity flanged = holds({{0, 0}, {50, 0}, {50, 80}, {60, 85}, {70, 70}});
  EXPECT_NEAR(flanged.height_mm, 85, 1e-9);
  EXPECT_NEAR(flanged.capacity_ml, holds({{50, 0}, {50, 80}, {60, 85}}).capacity_ml, 1e-9);
}

TEST(Capacity, of_several_sections_averages_their_squares) {
  // An elliptic cylinder of axes a and b holds pi a b h; sections along both axes average to (a^2 + b^2) / 2.
  const Section long_axis = inside({{0, 0}, {44, 0}, {44, 100}});
  const Section short_axis = inside({{0, 0}, {40, 0}, {40, 100}});
  const Capacity both = must(capacity_of({long_axis, short_axis}, {}));
  EXPECT_NEAR(both.capacity_ml, kPi * (44.0 * 44 + 40.0 * 40) / 2 * 100 / 1000, 1e-9);
  EXPECT_NEAR(both.capacity_ml, kPi * 44 * 40 * 100 / 1000, 0.005 * both.capacity_ml);
  ASSERT_TRUE(both.errors.asymmetry_ml.has_value());
  EXPECT_GT(both.high95_ml, both.sections[0].capacity_ml);
  EXPECT_LT(both.low95_ml, both.sections[1].capacity_ml);
}

TEST(Capacity, error_is_the_one_that_simulated_readings_show) {
  const Outline jar{{0, 0}, {45, 2}, {70, 40}, {80, 90}, {70, 140}, {48, 165}, {55, 180}};
  const CapacitySettings settings{.section_error_mm = 0.6, .diameter_error_mm = 5, .stance_error_deg = 2};
  const Capacity expected = holds(jar, settings);
  Random random(41);
  constexpr int kTrials = 4000;
  double sum = 0;
  double squares = 0;
  for (int i = 0; i < kTrials; ++i) {
    const double wider = 2.5 * random.normal();
    const double tilt = 2 * kPi / 180 * random.normal();
    Outline read = jar;
    for (OutlinePoint& p : read) {
      const bool axis = p.r_mm == 0;
      const double set = p.r_mm + wider + tilt * (180 - p.z_mm);
      p.r_mm = axis ? 0 : set + 0.6 * random.normal();
      p.z_mm += 0.6 * random.normal();
    }
    const double level = read.back().z_mm;
    const double volume = volume_below(read, level) / 1000;
    sum += volume;
    squares += volume * volume;
  }
  const double sd = std::sqrt(squares / kTrials - std::pow(sum / kTrials, 2));
  EXPECT_NEAR(expected.sd_ml / sd, 1, 0.06);
  EXPECT_NEAR(sum / kTrials / expected.capacity_ml, 1, 0.01);
}

TEST(Capacity, tells_how_much_of_the_wall_was_conjectured) {
  EXPECT_NEAR(holds({{30, 0}, {30, 50}, {30, 100, true}}).conjectured_share, 0.5, 1e-9);
}

TEST(Capacity, is_refused_with_a_clear_error) {
  const auto code = [](const Outline& points, const CapacitySettings& settings = {}) {
    const auto capacity = capacity_of({inside(points)}, settings);
    return capacity ? std::string() : capacity.error().code;
  };
  EXPECT_EQ(capacity_of({}, {}).error().code, "no_inner_side");
  EXPECT_EQ(code({}), "no_inner_side");
  EXPECT_EQ(code({{10, 0}}), "too_few_points");
  EXPECT_EQ(code({{10, 0}, {20, 0}}), "no_height");
  EXPECT_EQ(code({{-10, 0}, {20, 10}}), "beyond_axis");
  EXPECT_EQ(code({{10, 0}, {std::numeric_limits<double>::quiet_NaN(), 5}, {20, 10}}), "not_a_number");
  EXPECT_EQ(code({{10, 0}, {30, 20}, {30, 10}, {10, 30}}), "side_crosses_itself");
  EXPECT_EQ(code({{10, 0}, {20, 50}}, {.fill_mm = 60}), "fill_too_high");
  EXPECT_EQ(code({{10, 0}, {20, 50}}, {.fill_mm = 0}), "fill_too_low");
  EXPECT_EQ(code({{10, 0}, {20, 50}}, {.section_error_mm = -1}), "bad_setting");
}

}  // namespace
}  // namespace sherd::vessel
