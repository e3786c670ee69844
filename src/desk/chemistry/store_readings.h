#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "desk/frame/session.h"
#include "methods/chemistry/acceptance.h"
#include "methods/chemistry/calibration.h"
#include "methods/chemistry/checks.h"
#include "methods/chemistry/composition.h"
#include "model/analyte.h"
#include "model/chemistry.h"

namespace sherd::desk {

/// One form and unit an analyte; the readings that count, each amount in that unit.
struct StoreReadings {
  std::vector<Reading> readings;
  std::vector<chemistry::Analyte> analytes;
  std::vector<Formula> formulas;
  statistics::Matrix values;  ///< readings x analytes: the amount, or the limit; NaN where there is none
  std::vector<chemistry::Cell> cells;
  std::vector<Standard> standards;
  std::vector<Certified> certified;
  std::vector<AnalyteUse> decisions;
  std::int64_t above = 0;  ///< amounts beyond what the instrument reads, taken as missing
  std::vector<std::string> warnings;

  std::size_t place(std::size_t reading, std::size_t analyte) const { return reading * analytes.size() + analyte; }
  bool is_sherd(std::size_t reading) const {
    return readings[reading].standard.empty() &&
           readings[reading].role.value_or(ReadingRole::sherd) == ReadingRole::sherd;
  }
};

/// `where`: FIELD=VALUE of the readings of sherds. Beams whose average the file has are left out. Errors: `no_column`,
/// `no_readings`, those of the store.
Result<StoreReadings> load_readings(const Session& session, const std::vector<std::string>& where);

/// The certified value of an analyte as the readings have it, and its standard uncertainty.
struct CertifiedAmount {
  double value = 0;
  std::optional<double> sd;
};
std::optional<CertifiedAmount> certified_amount(const StoreReadings& all, const std::string& standard,
                                                std::size_t analyte);

/// Amounts of one analyte as measured on a standard, readings below a limit left out.
std::vector<double> amounts_of(const StoreReadings& all, const std::string& standard, std::size_t analyte);

/// What an instrument is worth, by its standards.
struct Instrument {
  std::vector<std::optional<chemistry::Calibration>> lines;  ///< by analyte
  std::vector<chemistry::ControlChart> charts;
  std::vector<chemistry::Acceptance> acceptance;  ///< by analyte
  std::string check;                              ///< the check standard; "" none
  std::vector<std::string> warnings;
};
struct InstrumentChoice {
  chemistry::CalibrationSettings line;
  std::string drift;      ///< the check standard by which amounts are corrected along the run; "" none
  std::string corrected;  ///< "", "yes" or "within"
};
/// Lines, charts and acceptance; where the choice asks for it, the amounts of `all` are corrected: first along the run,
/// then by the lines. Error `no_standard`.
Result<Instrument> judge_instrument(StoreReadings& all, const InstrumentChoice& choice);

}  // namespace sherd::desk
