#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "methods/chemistry/calibration_result.h"

namespace sherd::chemistry {

/// How the line is fitted: least squares; weighted least squares; through the origin; with errors in both (D. York, N.
/// Evensen, M. Lopez Martinez & J. De Basabe Delgado 2004, American Journal of Physics 72: 367-375).
enum class Line { ordinary, weighted, origin, both };
/// Weights of `weighted`: given with each point; one over the variance of the reported mean; one over the certified
/// amount, or over its square.
enum class Weights { given, variance, inverse, inverse_square };

/// A standard: certified amount x, mean reported amount y of n readings.
struct CalibrationPoint {
  std::string standard;
  double x = 0, y = 0;
  std::optional<double> x_sd, y_sd;  ///< of the certificate, as one standard deviation; of the mean y
  std::int64_t n = 1;
  double weight = 1;
};

struct CalibrationSettings {
  Line line = Line::ordinary;           ///< kind of the line
  Weights weights = Weights::variance;  ///< of the standards, where the line is weighted
};

/// Error `too_few_standards` (three for a line, two through the origin), `no_spread` (all certified amounts are one),
/// `no_error` (a standard without the errors that the line asks for), `no_slope` (the line does not rise).
Result<Calibration> calibrate(std::span<const CalibrationPoint> points, const CalibrationSettings& settings);

/// The amount that goes with a reported mean of m readings, with its standard error and 95 % interval:
/// s_x = (s/b) sqrt(1/m + 1/n + (y - mean y)^2 / (b^2 Sxx)), t with n - 2 degrees of freedom (J. Miller 1991, Analyst
/// 116: 3-14; D. Massart and others 1997, Handbook of Chemometrics and Qualimetrics A, chapter 8). `weight`: of the
/// reported mean, in place of 1/m, where the line is weighted; with errors in both, one over its variance.
Predicted predicted(const Calibration& calibration, double y, double m, std::optional<double> weight = {});

/// Certified amount whose lower limit of prediction meets the upper limit of a blank, by the line (one reading, 5 %
/// each way), and that whose relative half-width is one third. Nothing where the line cannot tell.
struct Limits {
  std::optional<double> detection, determination;
};
Limits limits_of_line(const Calibration& calibration);

/// 3 and 10 standard deviations of readings of a blank (n - 1). Error `too_few_readings`: fewer than 2.
Result<Limits> limits_of_blank(std::span<const double> blanks);

}  // namespace sherd::chemistry
