#include "methods/chemistry/calibration.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "methods/statistics/distributions.h"

namespace sherd::chemistry {

namespace {

using Points = std::span<const CalibrationPoint>;

double df_of(const Calibration& fit) { return static_cast<double>(fit.n) - (fit.se_a ? 2 : 1); }

Result<std::vector<double>> weights_of(Points points, const CalibrationSettings& settings) {
  std::vector<double> out;
  for (const CalibrationPoint& point : points) {
    double weight = 1;
    if (settings.line == Line::weighted) {
      if (settings.weights == Weights::given) weight = point.weight;
      if (settings.weights == Weights::inverse) weight = 1 / point.x;
      if (settings.weights == Weights::inverse_square) weight = 1 / (point.x * point.x);
      if (settings.weights == Weights::variance) {
        if (!point.y_sd || *point.y_sd <= 0)
          return fail("no_error", "the readings of " + point.standard + " have no scatter to weight them by",
                      "read each standard at least twice, or weight by 1/x");
        weight = 1 / (*point.y_sd * *point.y_sd);
      }
      if (!std::isfinite(weight) || weight <= 0)
        return fail("no_error", "the weight of " + point.standard + " is not above zero",
                    "a certified amount of 0 cannot be weighted by 1/x");
    }
    out.push_back(weight);
  }
  return out;
}

/// Least squares with weights; through the origin where asked.
Calibration fitted(Points points, std::span<const double> w, bool origin) {
  Calibration fit;
  fit.n = static_cast<std::int64_t>(points.size());
  double sx = 0;
  double sy = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    fit.sum_w += w[i];
    sx += w[i] * points[i].x;
    sy += w[i] * points[i].y;
  }
  if (!origin) {
    fit.mean_x = sx / fit.sum_w;
    fit.mean_y = sy / fit.sum_w;
  }
  double sxy = 0;
  double syy = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double dx = points[i].x - fit.mean_x;
    const double dy = points[i].y - fit.mean_y;
    fit.sxx += w[i] * dx * dx;
    sxy += w[i] * dx * dy;
    syy += w[i] * dy * dy;
  }
  fit.b = sxy / fit.sxx;
  fit.a = origin ? 0 : fit.mean_y - fit.b * fit.mean_x;
  double rest = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double residual = points[i].y - fit.a - fit.b * points[i].x;
    rest += w[i] * residual * residual;
  }
  const double df = static_cast<double>(points.size()) - (origin ? 1 : 2);
  fit.s = std::sqrt(rest / df);
  fit.se_b = fit.s / std::sqrt(fit.sxx);
  if (!origin) fit.se_a = fit.s * std::sqrt(1 / fit.sum_w + fit.mean_x * fit.mean_x / fit.sxx);
  if (!origin) fit.cov_ab = -fit.mean_x * fit.se_b * fit.se_b;
  if (syy > 0) fit.r2 = 1 - rest / syy;
  return fit;
}

/// York's iteration for the slope; converges in some ten rounds.
Result<Calibration> fitted_both(Points points) {
  for (const CalibrationPoint& point : points) {
    if (!point.x_sd || *point.x_sd <= 0 || !point.y_sd || *point.y_sd <= 0)
      return fail("no_error", point.standard + " lacks the error of its certified or of its reported amount",
                  "errors in both need both: the certificate's uncertainty, and two readings or more");
  }
  const std::vector<double> even(points.size(), 1.0);
  Calibration fit = fitted(points, even, false);
  std::vector<double> w(points.size());
  std::vector<double> beta(points.size());
  for (int round = 0; round < 200; ++round) {
    double sum = 0;
    double sx = 0;
    double sy = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
      const double vx = *points[i].x_sd * *points[i].x_sd;
      const double vy = *points[i].y_sd * *points[i].y_sd;
      w[i] = 1 / (vy + fit.b * fit.b * vx);
      sum += w[i];
      sx += w[i] * points[i].x;
      sy += w[i] * points[i].y;
    }
    fit.sum_w = sum;
    fit.mean_x = sx / sum;
    fit.mean_y = sy / sum;
    double over = 0;
    double under = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
      const double u = points[i].x - fit.mean_x;
      const double v = points[i].y - fit.mean_y;
      beta[i] = w[i] * (u * *points[i].y_sd * *points[i].y_sd + fit.b * v * *points[i].x_sd * *points[i].x_sd);
      over += w[i] * beta[i] * v;
      under += w[i] * beta[i] * u;
    }
    const double before = fit.b;
    fit.b = over / under;
    if (std::abs(fit.b - before) <= 1e-14 * std::abs(fit.b)) break;
  }
  fit.a = fit.mean_y - fit.b * fit.mean_x;
  double adjusted = 0;
  for (std::size_t i = 0; i < points.size(); ++i) adjusted += w[i] * (fit.mean_x + beta[i]);
  adjusted /= fit.sum_w;
  fit.sxx = 0;
  double rest = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double u = fit.mean_x + beta[i] - adjusted;
    fit.sxx += w[i] * u * u;
    const double residual = points[i].y - fit.a - fit.b * points[i].x;
    rest += w[i] * residual * residual;
  }
  fit.se_b = 1 / std::sqrt(fit.sxx);
  fit.se_a = std::sqrt(1 / fit.sum_w + adjusted * adjusted * fit.se_b * fit.se_b);
  fit.cov_ab = -adjusted * fit.se_b * fit.se_b;
  fit.misfit = rest / (static_cast<double>(points.size()) - 2);
  fit.s = std::sqrt(*fit.misfit);
  return fit;
}

Result<Calibration> fit_line(Points points, const CalibrationSettings& settings) {
  const bool origin = settings.line == Line::origin;
  const std::size_t least = origin ? 2 : 3;
  if (points.size() < least)
    return fail("too_few_standards", fmt::format("a line needs {} standards, and there are {}", least, points.size()),
                "read more standards, or fit through the origin, which needs two");
  const auto [low, high] = std::ranges::minmax_element(points, {}, &CalibrationPoint::x);
  if (low->x < 0)
    return fail("negative_value", fmt::format("{} is certified with {:.6g}, below zero", low->standard, low->x),
                "mend the certified amount: an amount is 0 or more");
  if (!origin && high->x - low->x <= 0)
    return fail("no_spread", "all standards have the same certified amount", "a line needs amounts that differ");
  if (origin && high->x <= 0) return fail("no_spread", "no standard has an amount above zero");
  Calibration fit;
  if (settings.line == Line::both) {
    SHERD_TRY(fit, fitted_both(points));
  } else {
    SHERD_TRY(const std::vector<double> w, weights_of(points, settings));
    fit = fitted(points, w, origin);
  }
  fit.range = {low->x, high->x};
  if (!std::isfinite(fit.b) || fit.b <= 0)
    return fail("no_slope", fmt::format("the line does not rise (slope {:.4g})", fit.b),
                "the instrument does not see this analyte in these standards: leave it out");
  return fit;
}

void describe(Calibration& fit, Points points, const CalibrationSettings& settings) {
  static constexpr std::array<const char*, 4> kLines{"ordinary", "weighted", "origin", "both"};
  fit.line = kLines[static_cast<std::size_t>(settings.line)];
  const double df = df_of(fit);
  if (df > 0 && fit.se_b > 0) fit.p_slope = statistics::student_two_sided((fit.b - 1) / fit.se_b, df);
  if (df > 0 && fit.se_a && *fit.se_a > 0) fit.p_intercept = statistics::student_two_sided(fit.a / *fit.se_a, df);
  for (const CalibrationPoint& point : points) {
    CalibrationStandard row{.standard = point.standard,
                            .certified = point.x,
                            .reported = point.y,
                            .certified_sd = point.x_sd,
                            .reported_sd = point.y_sd,
                            .n = point.n};
    row.residual = point.y - fit.a - fit.b * point.x;
    row.corrected = (point.y - fit.a) / fit.b;
    fit.standards.push_back(std::move(row));
  }
  const Limits limits = limits_of_line(fit);
  fit.detection = limits.detection;
  fit.determination = limits.determination;
}

/// Each standard by the line of the others.
void leave_out(Calibration& fit, Points points, const CalibrationSettings& settings) {
  for (std::size_t i = 0; i < points.size(); ++i) {
    std::vector<CalibrationPoint> others(points.begin(), points.end());
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
    const auto line = fit_line(others, settings);
    if (!line || points[i].x <= 0) continue;
    fit.standards[i].left_out_error_percent = 100 * ((points[i].y - line->a) / line->b - points[i].x) / points[i].x;
  }
}

void warn(Calibration& fit) {
  if (fit.n < 5)
    fit.warnings.push_back(fmt::format("rests on {} standards: the errors of the line are wide guesses", fit.n));
  if (fit.r2 && *fit.r2 < 0.9) fit.warnings.push_back(fmt::format("R squared is only {:.3f}", *fit.r2));
  if (fit.range[0] > 0 && fit.range[1] < 2 * fit.range[0])
    fit.warnings.emplace_back("the standards span less than a factor of 2");
  if (fit.misfit && *fit.misfit > 3)
    fit.warnings.push_back(fmt::format(
        "the standards scatter {:.1f} times wider than their errors allow: errors too small, or unlike in matrix",
        std::sqrt(*fit.misfit)));
  for (const CalibrationStandard& row : fit.standards) {
    const bool alone = row.certified >= fit.range[1] && fit.n > 2 && fit.line != "origin";
    if (!alone) continue;
    double next = fit.range[0];
    for (const CalibrationStandard& other : fit.standards) {
      if (other.standard != row.standard) next = std::max(next, other.certified);
    }
    if (next < 0.5 * row.certified)
      fit.warnings.push_back("the slope hangs on " + row.standard + ", more than twice as rich as the next");
  }
}

}  // namespace

Result<Calibration> calibrate(std::span<const CalibrationPoint> points, const CalibrationSettings& settings) {
  SHERD_TRY(Calibration fit, fit_line(points, settings));
  describe(fit, points, settings);
  leave_out(fit, points, settings);
  warn(fit);
  return fit;
}

Predicted predicted(const Calibration& fit, double y, double m, std::optional<double> weight) {
  Predicted out;
  out.value = (y - fit.a) / fit.b;
  const double of_reading = weight ? 1 / *weight : 1 / m;
  double variance = 0;
  if (fit.line == "both") {
    // The reading's own variance, and that of the line where it is met; scatter beyond the errors counts.
    const double scale = std::max(1.0, fit.misfit.value_or(1.0));
    const double of_line =
        *fit.se_a * *fit.se_a + out.value * out.value * fit.se_b * fit.se_b + 2 * out.value * fit.cov_ab;
    variance = (of_reading + of_line * scale) / (fit.b * fit.b);
  } else if (!fit.se_a) {
    variance = fit.s * fit.s / (fit.b * fit.b) * (of_reading + out.value * out.value / fit.sxx);
  } else {
    const double away = y - fit.mean_y;
    variance = fit.s * fit.s / (fit.b * fit.b) * (of_reading + 1 / fit.sum_w + away * away / (fit.b * fit.b * fit.sxx));
  }
  out.se = std::sqrt(variance);
  const double half = df_of(fit) > 0 ? statistics::student_limit(0.05, df_of(fit)) * out.se : 0;
  out.low95 = out.value - half;
  out.high95 = out.value + half;
  out.outside = out.value < fit.range[0] || out.value > fit.range[1];
  return out;
}

Limits limits_of_line(const Calibration& fit) {
  Limits out;
  const double df = df_of(fit);
  if (fit.line != "ordinary" || df < 1 || fit.s <= 0) return out;
  const double t = statistics::student_limit(0.10, df);
  const auto spread = [&](double x) {
    const double away = x - fit.mean_x;
    return fit.s * std::sqrt(1 + 1 / fit.sum_w + away * away / fit.sxx);
  };
  const double critical = fit.a + t * spread(0);
  const auto gap = [&](double x) { return fit.a + fit.b * x - t * spread(x) - critical; };
  const auto relative = [&](double x) {
    const Predicted at = predicted(fit, fit.a + fit.b * x, 1);
    return (at.high95 - at.low95) / 2 * 3 - x;
  };
  const double most = 100 * (fit.range[1] + fit.s / fit.b);
  const auto root = [&](const auto& f, bool rising) -> std::optional<double> {
    double low = 0;
    double high = most;
    if (rising ? f(high) < 0 : f(high) > 0) return std::nullopt;
    for (int i = 0; i < 200; ++i) {
      const double middle = (low + high) / 2;
      ((f(middle) < 0) == rising ? low : high) = middle;
    }
    return high;
  };
  out.detection = root(gap, true);
  out.determination = root(relative, false);
  return out;
}

Result<Limits> limits_of_blank(std::span<const double> blanks) {
  if (blanks.size() < 2) return fail("too_few_readings", "a blank needs two readings or more", "ten are usual");
  double mean = 0;
  for (const double value : blanks) mean += value / static_cast<double>(blanks.size());
  double sum = 0;
  for (const double value : blanks) sum += (value - mean) * (value - mean);
  const double sd = std::sqrt(sum / (static_cast<double>(blanks.size()) - 1));
  return Limits{3 * sd, 10 * sd};
}

}  // namespace sherd::chemistry
