#include "methods/chemistry/calibration.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

/// Worked numbers of the literature; where a set of data is from memory, it is said.
namespace sherd::chemistry {
namespace {

/// NIST Statistical Reference Datasets, "Norris": calibration of ozone monitors, lower level of difficulty.
const std::vector<double> kNorrisX{0.2, 337.4, 118.2, 884.6, 10.1,  226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4,
                                   0.6, 775.5, 666.9, 338.0, 447.5, 11.6,  556.0, 228.1, 995.8, 887.6, 120.2, 0.3,
                                   0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1,  118.3, 229.2, 669.1, 448.9, 0.5};
const std::vector<double> kNorrisY{0.1, 338.8, 118.1, 888.0, 9.2,   228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3,
                                   0.1, 778.1, 668.8, 339.3, 448.9, 10.8,  557.7, 228.3, 998.0, 888.8, 119.6, 0.3,
                                   0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2,  117.6, 228.9, 668.4, 449.2, 0.2};

std::vector<CalibrationPoint> points(const std::vector<double>& x, const std::vector<double>& y) {
  std::vector<CalibrationPoint> out;
  for (std::size_t i = 0; i < x.size(); ++i)
    out.push_back({.standard = "S" + std::to_string(i + 1), .x = x[i], .y = y[i]});
  return out;
}

Calibration fit(const std::vector<CalibrationPoint>& of, CalibrationSettings settings = {}) {
  auto found = calibrate(of, settings);
  EXPECT_TRUE(found.has_value()) << found.error().message;
  return found.value_or(Calibration{});
}

std::string code(const std::vector<CalibrationPoint>& of, CalibrationSettings settings = {}) {
  const auto found = calibrate(of, settings);
  return found ? "none" : found.error().code;
}

TEST(Calibrate, the_line_of_the_ozone_monitors_is_the_certified_one) {
  const Calibration norris = fit(points(kNorrisX, kNorrisY));
  EXPECT_NEAR(norris.a, -0.262323073774029, 1e-11);
  EXPECT_NEAR(*norris.se_a, 0.232818234301152, 1e-11);
  EXPECT_NEAR(norris.b, 1.00211681802045, 1e-13);
  EXPECT_NEAR(norris.se_b, 0.429796848199937e-3, 1e-14);
  EXPECT_NEAR(norris.s, 0.884796396144373, 1e-11);
  EXPECT_NEAR(*norris.r2, 0.999993745883712, 1e-13);
  EXPECT_EQ(norris.n, 36);
}

TEST(Calibrate, weights_of_one_over_x_give_the_line_of_a_statistics_program) {
  // R 4.2.2, lm(y ~ x, weights = 1/x).
  const Calibration norris = fit(points(kNorrisX, kNorrisY), {.line = Line::weighted, .weights = Weights::inverse});
  EXPECT_NEAR(norris.a, -0.0796115010, 1e-9);
  EXPECT_NEAR(*norris.se_a, 0.0428020456, 1e-9);
  EXPECT_NEAR(norris.b, 1.0016809372, 1e-9);
  EXPECT_NEAR(norris.se_b, 0.0014857431, 1e-9);
}

/// D. Massart and others 1997, Handbook of Chemometrics and Qualimetrics A, chapter 8, example 7 (data from memory;
/// results as public tests of a calibration library print them).
TEST(Calibrate, an_amount_is_predicted_with_the_printed_error) {
  const Calibration line = fit(points({0, 10, 20, 30, 40, 50}, {4.0, 21.2, 44.6, 61.8, 78.0, 105.2}));
  EXPECT_NEAR(line.a, 2.92380952, 1e-8);
  EXPECT_NEAR(line.b, 1.98171429, 1e-8);
  EXPECT_NEAR(line.s, 2.99116158, 1e-8);
  EXPECT_NEAR(*line.r2, 0.99481959, 1e-8);
  const Predicted low = predicted(line, 15, 1);
  EXPECT_NEAR(low.value, 6.09381, 1e-5);
  EXPECT_NEAR(low.se, 1.767278, 1e-6);
  EXPECT_NEAR(low.high95 - low.value, 4.906751, 1e-6);
  EXPECT_NEAR(predicted(line, 90, 1).high95 - predicted(line, 90, 1).value, 4.908053, 1e-6);
  const Predicted five = predicted(line, 90, 5);
  EXPECT_NEAR(five.value, 43.93983, 1e-5);
  EXPECT_NEAR(five.se, 1.141204, 1e-6);
  EXPECT_NEAR(five.high95 - five.value, 3.168489, 1e-6);
}

/// The same, example 8: means with weights; and all thirty readings.
TEST(Calibrate, weights_given_move_the_prediction_as_printed) {
  auto means = points({0, 10, 20, 30, 40, 50}, {4.0, 21.2, 44.6, 61.8, 78.0, 105.2});
  const std::vector<double> weights{1.984, 1.417, 1.262, 0.372, 0.199, 0.109};
  for (std::size_t i = 0; i < means.size(); ++i) means[i].weight = weights[i];
  const Calibration line = fit(means, {.line = Line::weighted, .weights = Weights::given});
  EXPECT_NEAR(line.a, 3.48268321, 1e-8);
  EXPECT_NEAR(line.b, 1.96361400, 1e-8);
  const Predicted low = predicted(line, 15, 1, 1.67);
  EXPECT_NEAR(low.value, 5.865367, 1e-6);
  EXPECT_NEAR(low.se, 0.8926109, 1e-7);
  EXPECT_NEAR(low.high95 - low.value, 2.478285, 1e-6);
  const Predicted high = predicted(line, 90, 1, 0.145);
  EXPECT_NEAR(high.value, 44.06025, 1e-5);
  EXPECT_NEAR(high.se, 2.829162, 1e-6);
  EXPECT_NEAR(high.high95 - high.value, 7.85501, 1e-5);
}

TEST(Calibrate, detection_and_determination_of_thirty_readings_are_the_printed_ones) {
  std::vector<double> x;
  for (const double at : {0.0, 10.0, 20.0, 30.0, 40.0, 50.0}) x.insert(x.end(), 5, at);
  const std::vector<double> y{4,  3,  4,  5,  4,  22, 20, 21, 22, 21, 44,  46,  45,  44,  44,
                              60, 63, 60, 63, 63, 75, 81, 79, 78, 77, 104, 109, 107, 101, 105};
  const Calibration line = fit(points(x, y));
  EXPECT_NEAR(line.s, 3.01508678, 1e-8);
  EXPECT_NEAR(*line.r2, 0.99264704, 1e-8);
  EXPECT_NEAR(*line.detection, 5.407085, 1e-3);  // printed to the tolerance of a search for a minimum
  const Calibration means = fit(points({0, 10, 20, 30, 40, 50}, {4.0, 21.2, 44.6, 61.8, 78.0, 105.2}));
  EXPECT_NEAR(*means.determination, 13.97764, 1e-3);  // the library works on the means of each amount
}

/// Pearson's data with York's weights (from memory); results are those of York 1966 and York and others 2004, table II,
/// to the figures given there.
std::vector<CalibrationPoint> pearson() {
  const std::vector<double> wx{1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1};
  const std::vector<double> wy{1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500};
  auto out =
      points({0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4}, {5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5});
  for (std::size_t i = 0; i < out.size(); ++i) {
    out[i].x_sd = 1 / std::sqrt(wx[i]);
    out[i].y_sd = 1 / std::sqrt(wy[i]);
    out[i].x = 10 - out[i].x;  // turned round, since a line of standards rises
  }
  return out;
}

TEST(Calibrate, errors_in_both_give_the_line_of_york) {
  const Calibration line = fit(pearson(), {.line = Line::both});
  EXPECT_NEAR(line.b, 0.480533407, 1e-9);
  EXPECT_NEAR(line.a, 5.47991022 - 4.80533407, 1e-7);
  EXPECT_NEAR(line.se_b, 0.057985009, 1e-8);
  EXPECT_NEAR(*line.misfit * 8, 11.8663532, 1e-6);
  const Predicted at_ten = predicted(line, line.a + 10 * line.b, 1, 1e12);
  EXPECT_NEAR(at_ten.se * line.b / std::sqrt(*line.misfit), 0.294970735, 1e-6);  // York's error of his intercept
}

TEST(Calibrate, through_the_origin_two_standards_are_enough) {
  const Calibration line = fit(points({10, 20}, {11, 21}), {.line = Line::origin});
  EXPECT_NEAR(line.b, (10 * 11 + 20 * 21) / 500.0, 1e-12);
  EXPECT_EQ(line.a, 0);
  EXPECT_FALSE(line.se_a.has_value());
}

TEST(Calibrate, what_cannot_be_a_line_is_refused) {
  EXPECT_EQ(code(points({1, 2}, {1, 2})), "too_few_standards");
  EXPECT_EQ(code(points({5, 5, 5}, {1, 2, 3})), "no_spread");
  EXPECT_EQ(code(points({-5, 5, 10}, {1, 2, 3})), "negative_value");
  EXPECT_EQ(code(points({1, 2, 3}, {3, 2, 1})), "no_slope");
  EXPECT_EQ(code(points({1, 2, 3}, {3, 2, 1}), {.line = Line::both}), "no_error");
  EXPECT_EQ(code(points({0, 2, 3}, {3, 2, 1}), {.line = Line::weighted, .weights = Weights::inverse}), "no_error");
}

TEST(Calibrate, an_amount_beyond_the_standards_is_marked) {
  const Calibration line = fit(points({10, 20, 30, 40, 50}, {11, 21, 30, 41, 52}));
  EXPECT_FALSE(predicted(line, 30, 1).outside);
  EXPECT_TRUE(predicted(line, 60, 1).outside);
  EXPECT_TRUE(predicted(line, 5, 1).outside);
}

TEST(Calibrate, a_rich_standard_alone_is_said_to_carry_the_slope) {
  const Calibration line = fit(points({10, 12, 11, 13, 90}, {11, 12, 11, 14, 95}));
  ASSERT_FALSE(line.warnings.empty());
  EXPECT_EQ(line.warnings.back(), "the slope hangs on S5, more than twice as rich as the next");
}

RC_GTEST_PROP(Calibrate, a_point_on_the_line_comes_back_as_it_was, ()) {
  const auto a = *rc::gen::inRange(-50, 50);
  const auto b = *rc::gen::inRange(1, 40);
  std::vector<double> x;
  std::vector<double> y;
  for (const int at : {3, 8, 21, 34, 55, 89}) {
    x.push_back(at);
    y.push_back(a + 0.1 * b * at);
  }
  const auto line = calibrate(points(x, y), {});
  RC_ASSERT(line.has_value());
  RC_ASSERT(std::abs(predicted(*line, a + 0.1 * b * 40, 1).value - 40) < 1e-8);
}

TEST(Blank, three_and_ten_standard_deviations) {
  const std::vector<double> blanks{4, 6, 5, 3, 7, 5, 4, 6, 5, 5};  // made up; worked by hand
  const auto limits = limits_of_blank(blanks);
  EXPECT_NEAR(*limits->detection, 3.4641, 1e-4);
  EXPECT_NEAR(*limits->determination, 11.5470, 1e-4);
  EXPECT_FALSE(limits_of_blank(std::vector<double>{1}).has_value());
}

}  // namespace
}  // namespace sherd::chemistry
