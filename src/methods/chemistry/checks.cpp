#include "methods/chemistry/checks.h"

#include <algorithm>
#include <cmath>

#include "methods/statistics/distributions.h"

namespace sherd::chemistry {

Trueness trueness(std::span<const double> readings, std::optional<double> certified,
                  std::optional<double> certified_sd) {
  Trueness out;
  const auto n = static_cast<double>(readings.size());
  out.n = static_cast<std::int64_t>(readings.size());
  for (const double value : readings) out.mean += value / n;
  if (readings.size() > 1) {
    double sum = 0;
    for (const double value : readings) sum += (value - out.mean) * (value - out.mean);
    out.sd = std::sqrt(sum / (n - 1));
    if (out.mean > 0) out.rsd_percent = 100 * *out.sd / out.mean;
    out.half95 = statistics::student_limit(0.05, n - 1) * *out.sd / std::sqrt(n);
  }
  out.certified = certified;
  out.certified_sd = certified_sd;
  if (certified && *certified > 0) {
    out.error_percent = 100 * (out.mean - *certified) / *certified;
    out.recovery_percent = 100 * out.mean / *certified;
  }
  if (certified && certified_sd && out.sd) {
    const double u = std::sqrt(*out.sd * *out.sd / n + *certified_sd * *certified_sd);
    if (u > 0) out.zeta = (out.mean - *certified) / u;
  }
  return out;
}

std::optional<double> standard_uncertainty(double uncertainty, std::string_view kind, std::optional<double> k) {
  if (uncertainty <= 0) return std::nullopt;
  if (kind == "sd") return uncertainty;
  if (kind == "tolerance") return uncertainty / 1.96;
  if (kind == "expanded") return uncertainty / k.value_or(2);
  return std::nullopt;
}

namespace {

/// Slope along the run, of readings that are of one place at least twice apart.
void add_drift(ControlChart& chart) {
  const auto n = static_cast<double>(chart.points.size());
  double mean_place = 0;
  for (const ChartPoint& point : chart.points) mean_place += point.place / n;
  double sxx = 0;
  double sxy = 0;
  double syy = 0;
  for (const ChartPoint& point : chart.points) {
    const double dx = point.place - mean_place;
    const double dy = point.value - chart.centre;
    sxx += dx * dx;
    sxy += dx * dy;
    syy += dy * dy;
  }
  if (sxx <= 0) return;
  const double slope = sxy / sxx;
  if (chart.centre > 0)
    chart.drift_percent = 100 * slope * (chart.points.back().place - chart.points.front().place) / chart.centre;
  const double rest = std::max(0.0, syy - slope * sxy);
  if (n < 3) return;
  const double se = std::sqrt(rest / (n - 2) / sxx);
  chart.p_drift = se > 0 ? statistics::student_two_sided(slope / se, n - 2) : (slope == 0 ? 1.0 : 0.0);
}

}  // namespace

Result<ControlChart> control_chart(std::vector<CheckReading> readings, std::optional<double> reference) {
  if (readings.size() < 2)
    return fail("too_few_readings", "a chart needs two readings of the check standard or more",
                "read it at the start, after every ten sherds or so, and at the end");
  std::ranges::stable_sort(readings, {}, &CheckReading::place);
  ControlChart chart;
  const auto n = static_cast<double>(readings.size());
  double moving = 0;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    chart.centre += readings[i].value / n;
    if (i > 0) moving += std::abs(readings[i].value - readings[i - 1].value) / (n - 1);
  }
  constexpr double kMeanRangeOfTwo = 1.128;
  chart.sd = moving / kMeanRangeOfTwo;
  chart.warn_low = chart.centre - 2 * chart.sd;
  chart.warn_high = chart.centre + 2 * chart.sd;
  chart.stop_low = chart.centre - 3 * chart.sd;
  chart.stop_high = chart.centre + 3 * chart.sd;
  chart.reference = reference;
  for (const CheckReading& reading : readings) {
    ChartPoint point{
        .reading = reading.reading, .taken_at = reading.taken_at, .place = reading.place, .value = reading.value};
    if (chart.sd > 0) point.sds = (reading.value - chart.centre) / chart.sd;
    if (std::abs(point.sds) > 2) point.flag = std::abs(point.sds) > 3 ? "stop" : "warn";
    if (reading.value > 0) point.factor = reference.value_or(chart.centre) / reading.value;
    chart.points.push_back(std::move(point));
  }
  add_drift(chart);
  return chart;
}

double drift_factor(std::span<const ChartPoint> points, double place) {
  if (place <= points.front().place) return points.front().factor;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const ChartPoint& before = points[i - 1];
    const ChartPoint& after = points[i];
    if (place > after.place) continue;
    if (after.place <= before.place) return after.factor;
    const double share = (place - before.place) / (after.place - before.place);
    return before.factor + share * (after.factor - before.factor);
  }
  return points.back().factor;
}

}  // namespace sherd::chemistry
