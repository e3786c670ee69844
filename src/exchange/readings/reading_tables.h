#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/problem.h"
#include "exchange/readings/raw_readings.h"
#include "model/chemistry.h"

namespace sherd::exchange {

/// What a cell of an amount says.
struct AmountCell {
  std::optional<AmountState> state;   ///< nothing: blank
  std::optional<std::int64_t> value;  ///< millionths
  std::optional<std::int64_t> limit;  ///< millionths, where the cell says it: "<12"
};
/// "12.5", "<LOD", "< 12", "ND", "N/A", "OOR", ">100". Errors: `not_a_number`, `negative`.
Result<AmountCell> read_amount_cell(std::string_view text, char decimal);

/// What is said beside the file.
struct ReadingSettings {
  std::optional<FractionUnit> unit;            ///< of analytes that the file gives none for
  std::map<std::string, FractionUnit> units;   ///< by analyte, for the same
  std::optional<int> errors;                   ///< standard deviations that an error of the file is
  std::map<std::string, std::int64_t> limits;  ///< by analyte, millionths of the analyte's unit
  bool zeros_are_below = false;                ///< the instrument writes 0 where nothing was detected
  std::string cut;     ///< readings of a sherd: what stands before the last of these signs; "" the sample as it is
  std::string prefix;  ///< before each reading's name
  std::string decimal;
};

/// How one analyte came in.
struct AnalyteCount {
  std::string analyte;
  FractionUnit unit{};
  bool unit_said = false;  ///< by the settings, not by the file
  std::int64_t measured = 0, below = 0, above = 0, missing = 0, blank = 0, zeros = 0;
  std::int64_t without_limit = 0;  ///< of those below
  std::optional<int> errors;       ///< standard deviations that its errors were
};

struct ReadingTables {
  std::vector<Reading> readings;
  std::vector<std::map<std::string, std::string>> extras;  ///< of the readings
  std::vector<Concentration> concentrations;
  std::vector<AnalyteCount> analytes;  ///< in the file's order
  std::vector<Problem> problems;
  std::set<std::string> refused;  ///< readings with a problem
  std::vector<std::string> warnings;
  bool decimal_comma = false;
};

/// Cells made values. `file`: the document that keeps the bytes. Errors: `unit_unknown`, `error_unknown`, each naming
/// the analytes and the way out; what is wrong with single cells stands in `problems`.
Result<ReadingTables> reading_tables(const RawReadings& raw, const ReadingSettings& settings, const std::string& file);

}  // namespace sherd::exchange
