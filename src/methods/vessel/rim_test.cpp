#include "methods/vessel/rim.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "base/random.h"
#include "methods/vessel/rim_parts.h"

namespace sherd::vessel {
namespace {

RimMeasure must(const Result<RimMeasure>& measure) {
  EXPECT_TRUE(measure.has_value()) << measure.error().message;
  return measure.value_or(RimMeasure{});
}
RimMeasure chord(double c, double s, const RimSettings& settings = {}) { return must(rim_from_chord(c, s, settings)); }

/// Points of a rim with noise across it; `oval`: half the difference of its axes.
std::vector<Place> rim(Random& random, double r, double share, int n, double noise, double oval = 0) {
  std::vector<Place> points;
  const double turn = 2 * std::numbers::pi * random.uniform();
  for (int i = 0; i < n; ++i) {
    const double angle = 2 * std::numbers::pi * share * i / (n - 1);
    const double d = r + oval * std::cos(2 * angle) + noise * random.normal();
    points.push_back({200 + d * std::cos(angle + turn), 100 + d * std::sin(angle + turn)});
  }
  return points;
}

TEST(ChordAndSagitta, give_the_radius_of_published_examples) {
  // Pages of chord calculators: chord 10, sagitta 3: 5.67; chord 8, sagitta 2: 5.
  EXPECT_NEAR(*chord(10, 3).diameter_mm / 2, 5.67, 0.005);
  EXPECT_NEAR(*chord(8, 2).diameter_mm / 2, 5, 1e-12);
  // Radius 10 and chord 12: sagitta 2 or 18; radius 15 and chord 20: 3.82 or 26.18.
  for (const auto& [c, s, r] : {std::tuple(12, 2.0, 10.0), {12, 18.0, 10.0}, {20, 3.82, 15.0}, {20, 26.18, 15.0}})
    EXPECT_NEAR(*chord(c, s).diameter_mm / 2, r, 0.005) << s;
}

TEST(ChordAndSagitta, above_half_the_chord_is_more_than_half_the_circle) {
  EXPECT_NEAR(chord(12, 2).rim_percent + chord(12, 18).rim_percent, 100, 1e-9);
  EXPECT_NEAR(chord(20, 10).rim_percent, 50, 1e-9);
}

TEST(ChordAndSagitta, of_60_and_4_mm_come_with_the_error_that_their_derivatives_give) {
  // By hand: r 114.5, share .084384926, dr/ds -27.625, dr/dc 3.75.
  const RimMeasure measure = chord(60, 4, {.reading_error_mm = 0.02, .chord_error_mm = 0});
  EXPECT_NEAR(*measure.diameter_mm, 229, 1e-9);
  EXPECT_NEAR(measure.eve, 0.084384926, 1e-9);
  EXPECT_NEAR((*measure.high95_mm - *measure.low95_mm) / 2, 2 * 1.959964 * 27.625 * 0.02, 0.01);
  const RimMeasure by_chord = chord(60, 4, {.reading_error_mm = 0, .chord_error_mm = 0.1});
  EXPECT_NEAR((*by_chord.high95_mm - *by_chord.low95_mm) / 2, 2 * 1.959964 * 3.75 * 0.1, 0.01);
}

TEST(ChordAndSagitta, that_settle_nothing_are_refused) {
  const auto code = [](double c, double s) {
    const auto measure = rim_from_chord(c, s, {});
    return measure ? std::string() : measure.error().code;
  };
  EXPECT_EQ(code(0, 5), "no_chord");
  EXPECT_EQ(code(-3, 5), "no_chord");
  EXPECT_EQ(code(40, 0), "no_sagitta");
  EXPECT_EQ(code(40, 0.05), "straight_line");
  EXPECT_EQ(code(std::numeric_limits<double>::quiet_NaN(), 1), "not_a_number");
  EXPECT_EQ(rim_from_chord(40, 5, {.chord_error_mm = -1}).error().code, "bad_setting");
}

TEST(Rim, below_five_percent_gives_a_class_not_a_value) {
  Random random(3);
  const RimMeasure measure = must(rim_from_points(rim(random, 100, 0.04, 15, 0.1), {}));
  EXPECT_FALSE(measure.diameter_mm.has_value());
  ASSERT_TRUE(measure.diameter_class.has_value());
  EXPECT_LE(measure.diameter_class->from_mm, *measure.low95_mm);
  EXPECT_NEAR(std::fmod(measure.diameter_class->from_mm, 20), 0, 1e-9);
  EXPECT_LT(measure.rim_percent, 5);
  EXPECT_GT(measure.eve, 0.02);
  EXPECT_EQ(chord(20, 0.5, {.reading_error_mm = 0.1}).diameter_mm.has_value(), false);
}

TEST(Rim, whose_arc_may_be_straight_has_no_upper_limit) {
  Random random(5);
  const RimMeasure measure = must(rim_from_points(rim(random, 150, 0.03, 6, 0.05), {.reading_error_mm = 1}));
  EXPECT_FALSE(measure.high95_mm.has_value());
  EXPECT_GT(*measure.low95_mm, 0);
  EXPECT_EQ(measure.percent_low95, 0);
}

TEST(Rim, all_the_way_round_counts_as_a_hundred_percent) {
  Random random(9);
  std::vector<Place> points = rim(random, 70, 35.0 / 36, 36, 0);
  const RimMeasure measure = must(rim_from_points(points, {}));
  EXPECT_EQ(measure.rim_percent, 100);
  EXPECT_NEAR(*measure.diameter_mm, 140, 1e-6);
}

/// Standard deviation of the radius by n evenly spread points that err by 1 across the arc: the corner of the inverse
/// of the sums of squares and products of (1, cos, sin), by Cramer's rule; the sines' sum is 0.
double radius_sd(double share, int n) {
  double cosines = 0;
  double squares = 0;
  for (int i = 0; i < n; ++i) {
    const double c = std::cos(std::numbers::pi * share * (2.0 * i / (n - 1) - 1));
    cosines += c;
    squares += c * c;
  }
  return std::sqrt(squares / (n * squares - cosines * cosines));
}

TEST(Rim, error_of_a_short_arc_goes_with_the_square_of_its_length) {
  // sd(r) = sigma sqrt(45 / n) / alpha^2 for many points on a short arc of half-angle alpha; own derivation.
  for (const double share : {0.01, 0.02, 0.05}) {
    const double alpha = std::numbers::pi * share;
    EXPECT_NEAR(radius_sd(share, 2000) * alpha * alpha / std::sqrt(45.0 / 2000), 1, 0.02) << share;
  }
}

/// How often the 95 % interval holds the true diameter, and how the errors of 1/r compare with the one planted.
struct Trial {
  double held = 0, spread = 0, expected = 0, bias = 0;
};
Trial simulate(double share, int n, double noise, const RimSettings& settings, std::uint64_t seed) {
  constexpr int kTrials = 600;
  Random random(seed);
  Trial trial;
  double sum = 0;
  double squares = 0;
  for (int i = 0; i < kTrials; ++i) {
    const RimMeasure measure = must(rim_from_points(rim(random, 100, share, n, noise), settings));
    const double high = measure.high95_mm.value_or(1e300);
    trial.held += *measure.low95_mm <= 200 && 200 <= high ? 1.0 / kTrials : 0.0;
    const double curvature = 1 / measure.fits.front().radius_mm;
    sum += curvature;
    squares += curvature * curvature;
  }
  trial.spread = std::sqrt(squares / kTrials - std::pow(sum / kTrials, 2));
  trial.bias = sum / kTrials - 0.01;
  trial.expected = noise * radius_sd(share, n) / 1e4;
  return trial;
}

TEST(Rim, of_simulated_arcs_recovers_the_error_that_was_planted) {
  for (const double share : {0.05, 0.10, 0.20, 0.35}) {
    const Trial trial = simulate(share, 20, 0.1, {.reading_error_mm = 0.1}, 17);
    EXPECT_NEAR(trial.held, 0.95, 0.03) << share;
    EXPECT_NEAR(trial.spread / trial.expected, 1, 0.08) << share;
    EXPECT_LT(std::abs(trial.bias), 0.15 * trial.spread) << share;
  }
}

TEST(Rim, tells_its_error_from_the_scatter_where_none_is_given) {
  for (const int n : {10, 40, 150}) {
    const Trial trial = simulate(0.15, n, 0.3, {}, 19);
    EXPECT_NEAR(trial.held, 0.95, 0.035) << n;
  }
}

TEST(Rim, read_with_neighbours_erring_together_has_fewer_readings_than_points) {
  Random random(21);
  constexpr int kTrials = 400;
  double held = 0;
  for (int i = 0; i < kTrials; ++i) {
    std::vector<Place> points;
    double wobble = 0.25 * random.normal();
    for (int k = 0; k < 120; ++k) {
      wobble = 0.7 * wobble + 0.25 * std::sqrt(1 - 0.49) * random.normal();
      const double angle = 2 * std::numbers::pi * 0.3 * k / 119;
      points.push_back({(100 + wobble) * std::cos(angle), (100 + wobble) * std::sin(angle)});
    }
    const RimMeasure measure = must(rim_from_points(points, {}));
    EXPECT_LT(*measure.effective_points, 70);
    held += *measure.low95_mm <= 200 && 200 <= measure.high95_mm.value_or(1e9) ? 1.0 / kTrials : 0.0;
  }
  EXPECT_GT(held, 0.88);  // 0.6 where all points count as independent
}

TEST(Ovality, is_found_where_it_was_planted_and_seldom_where_it_was_not) {
  Random random(23);
  int oval = 0;
  int round = 0;
  for (int i = 0; i < 200; ++i) {
    const RimMeasure planted = must(rim_from_points(rim(random, 100, 0.6, 60, 0.3, 3), {}));
    ASSERT_TRUE(planted.ovality.has_value());
    oval += planted.ovality->p < 0.05 ? 1 : 0;
    if (i == 0) {
      EXPECT_NEAR(planted.ovality->least_mm, 194, 2.5);
      EXPECT_NEAR(planted.ovality->greatest_mm, 206, 2.5);
    }
    round += must(rim_from_points(rim(random, 100, 0.6, 60, 0.3), {})).ovality->p < 0.05 ? 1 : 0;
  }
  EXPECT_EQ(oval, 200);
  EXPECT_GE(round, 2);
  EXPECT_LE(round, 22);
}

TEST(Ovality, is_not_told_of_a_short_arc) {
  Random random(25);
  EXPECT_FALSE(must(rim_from_points(rim(random, 100, 0.2, 60, 0.1), {})).ovality.has_value());
}

TEST(Sherds, of_one_rim_together_are_surer_than_each_alone) {
  Random random(27);
  const std::vector<SherdArc> sherds{{"a", rim(random, 110, 0.08, 15, 0.2)},
                                     {"b", rim(random, 110, 0.12, 15, 0.2)},
                                     {"c", rim(random, 110, 0.06, 12, 0.2)}};
  const RimMeasure measure = must(rim_from_sherds(sherds, {.reading_error_mm = 0.2}));
  EXPECT_NEAR(measure.rim_percent, 26, 2);
  EXPECT_NEAR(*measure.diameter_mm, 220, 15);
  EXPECT_GT(*measure.one_rim_p, 0.01);
  for (const RimPart& part : measure.parts) {
    EXPECT_GT(*part.alone_high95_mm - *part.alone_low95_mm, *measure.high95_mm - *measure.low95_mm) << part.sherd;
  }
}

TEST(Sherds, of_two_rims_are_told_apart) {
  Random random(29);
  const std::vector<SherdArc> sherds{{"a", rim(random, 60, 0.2, 25, 0.2)}, {"b", rim(random, 110, 0.2, 25, 0.2)}};
  EXPECT_LT(*must(rim_from_sherds(sherds, {})).one_rim_p, 1e-6);
}

TEST(Sherds, name_the_one_that_is_wrong) {
  Random random(31);
  const auto measure =
      rim_from_sherds({{"good", rim(random, 60, 0.2, 25, 0.2)}, {"bad", {{1, 1}, {2, 2}, {3, 3}}}}, {});
  ASSERT_FALSE(measure.has_value());
  EXPECT_EQ(measure.error().code, "straight_line");
  EXPECT_EQ(measure.error().where.id, "bad");
}

}  // namespace
}  // namespace sherd::vessel
