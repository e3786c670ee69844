#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "methods/chemistry/calibration_result.h"

namespace sherd::chemistry {

/// Mean, standard deviation (n - 1), relative standard deviation and, where an amount is certified, error, recovery and
/// zeta = (mean - certified) / sqrt(sd^2 / n + certified sd^2): ISO 13528, 9.6; up to 2 either way is in order.
/// `readings` holds at least one.
Trueness trueness(std::span<const double> readings, std::optional<double> certified,
                  std::optional<double> certified_sd);

/// The standard uncertainty that an uncertainty on a certificate stands for: expanded over k (2 unless said); a
/// tolerance half-width over 1.96 (common practice, no source); one standard deviation as it is; none where it is 0 or
/// says nothing.
std::optional<double> standard_uncertainty(double uncertainty, std::string_view kind, std::optional<double> k);

/// A reading of the check standard, at its place in the run.
struct CheckReading {
  std::string reading, taken_at;
  double place = 0, value = 0;
};

/// Individuals chart: centre the mean, standard deviation the mean moving range over 1.128, warn and stop at 2 and 3 of
/// them (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2). The slope along the run by least squares.
/// `reference`: what the standard should read, for the factors; the mean where it is not said. Error
/// `too_few_readings`: fewer than 2.
Result<ControlChart> control_chart(std::vector<CheckReading> readings, std::optional<double> reference);

/// What an amount read at `place` is multiplied by: reference over measured, by a straight line between the check
/// readings on either side; beyond the first and last, theirs. `points` in the order of their places, at least one.
double drift_factor(std::span<const ChartPoint> points, double place);

}  // namespace sherd::chemistry
