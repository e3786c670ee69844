#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "methods/chemistry/calibration_result.h"

namespace sherd::chemistry {

/// What is known of the reading of an element beforehand: data/reference/xrf_elements.csv.
struct ElementAdvice {
  std::string element, advice;  ///< use, with_care, leave_out
  std::string reason, overlaps, known;
};

/// Bounds of the table. By EPA Method 6200, from memory: R squared 0.7 for screening, 0.9 for figures that are to
/// stand; precision 20 %, 10 % for those that are to stand; the check within 20 %. Shares below limits are common
/// practice, no source.
struct AcceptanceSettings {
  double r2_use = 0.9;             ///< R squared of the line, at least, to use an analyte
  double r2_care = 0.7;            ///< likewise, to use it with care
  double rsd_use = 10;             ///< [percent] scatter of the readings of one sample, at most, to use it
  double rsd_care = 20;            ///< [percent] likewise, with care
  double error_use = 10;           ///< [percent] by which the check standard is off, at most, to use it
  double error_care = 20;          ///< [percent] likewise, with care
  double censored_use = 20;        ///< [percent] of readings below their limit, at most, to use it
  double censored_care = 50;       ///< [percent] likewise, with care
  std::int64_t standards_use = 3;  ///< standards that the line rests on, at least, to use it
};

/// What speaks for and against one analyte.
struct AcceptanceEvidence {
  std::string analyte;
  const Calibration* calibration = nullptr;
  std::optional<Trueness> check;      ///< of the check standard, as calibrated
  std::optional<double> rsd_percent;  ///< of readings of one sample, pooled
  double censored = 0, readings = 0;  ///< cells of sherds
  std::int64_t standards = 0;         ///< that have a certified value for it and readings
  double outside = 0;                 ///< sherds beyond the standards
  std::optional<double> drift_percent =
      {};  ///< of the check standard along the run, where it is no chance and stays in
  std::string check_standard = {};
  std::optional<ElementAdvice> advice;
  std::optional<std::pair<std::string, std::string>> decided;  ///< decision and reason of the specialist
  std::string decided_by;
};

/// The gravest of what its evidence asks for, with every reason; the specialist's own decision stands over it.
Acceptance accepted(const AcceptanceEvidence& evidence, const AcceptanceSettings& settings);

}  // namespace sherd::chemistry
