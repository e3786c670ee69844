#pragma once

#include <string>
#include <vector>

#include "desk/frame/session.h"
#include "methods/chemistry/calibration_result.h"
#include "model/chemistry.h"

namespace sherd::desk {

/// All of the chemistry that a record holds, for those who look at it as a whole.
struct ChemistryRecord {
  std::vector<Standard> standards;
  std::vector<Certified> certified;
  std::vector<Sample> samples;
  std::vector<Reading> readings;
  std::vector<Source> sources;
  std::vector<Concentration> amounts;
  std::vector<ThinSection> sections;
  std::vector<PointCount> points;
  std::vector<chemistry::ControlChart> charts;  ///< of the check standard, an analyte each
  std::string today;                            ///< "2026-03-02"
};
Result<ChemistryRecord> load_chemistry(const Session& session, const std::string& today);

}  // namespace sherd::desk
