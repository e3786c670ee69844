#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

/// Results on instruments and their standards, free of the libraries behind them.
namespace sherd::chemistry {

struct OxidePart {
  std::string oxide;
  double percent = 0;

  template <class V>
  static void fields(V& v) {
    v.field("oxide", &OxidePart::oxide);
    v.field("percent", &OxidePart::percent);
  }
};

struct OxideTotal {
  double percent = 0;
  std::vector<OxidePart> parts;
  std::optional<bool> plausible;  ///< nothing where silicon or aluminium is missing
  std::string note;

  template <class V>
  static void fields(V& v) {
    v.field("percent", &OxideTotal::percent);
    v.field("parts", &OxideTotal::parts);
    v.field("plausible", &OxideTotal::plausible);
    v.field("note", &OxideTotal::note);
  }
};

/// One standard in the calibration of one analyte.
struct CalibrationStandard {
  std::string standard;
  double certified = 0, reported = 0;
  std::optional<double> certified_sd, reported_sd;  ///< of the certificate; of the mean of its readings
  std::int64_t n = 0;                               ///< readings
  double residual = 0;                              ///< reported less the line
  double corrected = 0;                             ///< the reported amount by the line
  std::optional<double> left_out_error_percent;     ///< corrected by the line of the others, against the certificate

  template <class V>
  static void fields(V& v) {
    v.field("standard", &CalibrationStandard::standard);
    v.field("certified", &CalibrationStandard::certified);
    v.field("reported", &CalibrationStandard::reported);
    v.field("certified_sd", &CalibrationStandard::certified_sd);
    v.field("reported_sd", &CalibrationStandard::reported_sd);
    v.field("n", &CalibrationStandard::n);
    v.field("residual", &CalibrationStandard::residual);
    v.field("corrected", &CalibrationStandard::corrected);
    v.field("left_out_error_percent", &CalibrationStandard::left_out_error_percent);
  }
};

/// The line of one analyte: reported = a + b certified.
struct Calibration {
  std::string analyte, unit, line;
  double a = 0, b = 1;
  std::optional<double> se_a;  ///< none through the origin
  double se_b = 0;
  std::optional<double> r2;
  double s = 0;  ///< residual standard deviation, of the weighted residuals where there are weights
  std::int64_t n = 0;
  std::vector<double> range;                       ///< of the certified amounts: lowest, highest
  std::optional<double> p_slope, p_intercept;      ///< of b = 1 and of a = 0
  std::optional<double> misfit;                    ///< errors in both: sum of squares over degrees of freedom
  std::optional<double> detection, determination;  ///< certified amounts at which they are reached
  std::vector<CalibrationStandard> standards;
  std::vector<std::string> warnings;

  // What inverse prediction needs.
  double mean_x = 0, mean_y = 0, sum_w = 0, sxx = 0, cov_ab = 0;

  template <class V>
  static void fields(V& v) {
    v.field("analyte", &Calibration::analyte);
    v.field("unit", &Calibration::unit);
    v.field("line", &Calibration::line);
    v.field("a", &Calibration::a);
    v.field("b", &Calibration::b);
    v.field("se_a", &Calibration::se_a);
    v.field("se_b", &Calibration::se_b);
    v.field("r2", &Calibration::r2);
    v.field("s", &Calibration::s);
    v.field("n", &Calibration::n);
    v.field("range", &Calibration::range);
    v.field("p_slope", &Calibration::p_slope);
    v.field("p_intercept", &Calibration::p_intercept);
    v.field("misfit", &Calibration::misfit);
    v.field("detection", &Calibration::detection);
    v.field("determination", &Calibration::determination);
    v.field("standards", &Calibration::standards);
    v.field("warnings", &Calibration::warnings);
  }
};

/// An amount by a calibration.
struct Predicted {
  double value = 0, se = 0, low95 = 0, high95 = 0;
  bool outside = false;  ///< of the range of the standards

  template <class V>
  static void fields(V& v) {
    v.field("value", &Predicted::value);
    v.field("se", &Predicted::se);
    v.field("low95", &Predicted::low95);
    v.field("high95", &Predicted::high95);
    v.field("outside", &Predicted::outside);
  }
};

/// Readings of a material whose amount is known.
struct Trueness {
  std::int64_t n = 0;
  double mean = 0;
  std::optional<double> sd, rsd_percent, half95;  ///< half-width of the 95 % interval of the mean
  std::optional<double> certified, certified_sd, error_percent, recovery_percent, zeta;

  template <class V>
  static void fields(V& v) {
    v.field("n", &Trueness::n);
    v.field("mean", &Trueness::mean);
    v.field("sd", &Trueness::sd);
    v.field("rsd_percent", &Trueness::rsd_percent);
    v.field("half95", &Trueness::half95);
    v.field("certified", &Trueness::certified);
    v.field("certified_sd", &Trueness::certified_sd);
    v.field("error_percent", &Trueness::error_percent);
    v.field("recovery_percent", &Trueness::recovery_percent);
    v.field("zeta", &Trueness::zeta);
  }
};

/// A reading of the check standard on its chart.
struct ChartPoint {
  std::string reading, taken_at;
  double place = 0;  ///< in the run
  double value = 0, sds = 0;
  double factor = 1;  ///< reference over measured
  std::string flag;   ///< "", "warn" beyond 2 standard deviations, "stop" beyond 3

  template <class V>
  static void fields(V& v) {
    v.field("reading", &ChartPoint::reading);
    v.field("taken_at", &ChartPoint::taken_at);
    v.field("place", &ChartPoint::place);
    v.field("value", &ChartPoint::value);
    v.field("sds", &ChartPoint::sds);
    v.field("factor", &ChartPoint::factor);
    v.field("flag", &ChartPoint::flag);
  }
};

struct ControlChart {
  std::string standard, analyte, unit;
  double centre = 0, sd = 0, warn_low = 0, warn_high = 0, stop_low = 0, stop_high = 0;
  std::optional<double> reference, drift_percent;  ///< drift: fitted last less first, of the mean
  std::optional<double> p_drift;                   ///< of no slope along the run
  std::vector<ChartPoint> points;

  template <class V>
  static void fields(V& v) {
    v.field("standard", &ControlChart::standard);
    v.field("analyte", &ControlChart::analyte);
    v.field("unit", &ControlChart::unit);
    v.field("centre", &ControlChart::centre);
    v.field("sd", &ControlChart::sd);
    v.field("warn_low", &ControlChart::warn_low);
    v.field("warn_high", &ControlChart::warn_high);
    v.field("stop_low", &ControlChart::stop_low);
    v.field("stop_high", &ControlChart::stop_high);
    v.field("reference", &ControlChart::reference);
    v.field("drift_percent", &ControlChart::drift_percent);
    v.field("p_drift", &ControlChart::p_drift);
    v.field("points", &ControlChart::points);
  }
};

/// Whether an analyte may be used, and why.
struct Acceptance {
  std::string analyte, decision;  ///< use, with_care, leave_out
  std::string decided_by;         ///< "" by the rules; else the specialist
  std::vector<std::string> reasons;
  std::optional<double> r2, rsd_percent, error_percent, zeta, censored_percent;
  std::int64_t standards = 0, readings = 0;
  std::string calibrated;  ///< the line that is used; "" none

  template <class V>
  static void fields(V& v) {
    v.field("analyte", &Acceptance::analyte);
    v.field("decision", &Acceptance::decision);
    v.field("decided_by", &Acceptance::decided_by);
    v.field("reasons", &Acceptance::reasons);
    v.field("r2", &Acceptance::r2);
    v.field("rsd_percent", &Acceptance::rsd_percent);
    v.field("error_percent", &Acceptance::error_percent);
    v.field("zeta", &Acceptance::zeta);
    v.field("censored_percent", &Acceptance::censored_percent);
    v.field("standards", &Acceptance::standards);
    v.field("readings", &Acceptance::readings);
    v.field("calibrated", &Acceptance::calibrated);
  }
};

}  // namespace sherd::chemistry
