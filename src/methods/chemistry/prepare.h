#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/result.h"
#include "methods/chemistry/composition.h"
#include "methods/chemistry/preparation_result.h"

namespace sherd::chemistry {

/// none: as measured. closed: percent of the sum of the parts used. alr: against `divisor`.
enum class Transform { none, log10, closed, clr, ilr, alr };
const char* name_of(Transform transform);

/// What is left out where a cell is missing.
enum class Missing { refuse, samples, parts };

struct PreparationSettings {
  Transform transform = Transform::log10;  ///< of the amounts, before anything else
  Missing missing = Missing::refuse;       ///< what is done where a cell is missing
  double share_of_limit = 0.65;            ///< put in for a value below its limit; 0 < share < 1
  std::map<std::string, double> limits;    ///< of parts, in the unit of the table, where a cell has none: zeros, "nd"
  std::string divisor;                     ///< of alr; "": the part that varies least against all others
};

/// Compositions ready for a method: rows of numbers without gaps.
struct Prepared {
  std::vector<std::string> ids, groups;  ///< groups as long as ids, "" in none
  std::vector<std::string> records;      ///< as in Composition
  statistics::Matrix parts;              ///< samples x parts after replacement, before the transform
  std::vector<bool> put_in;              ///< as parts.values: not measured
  statistics::Matrix values;             ///< samples x variables
  Preparation about;
};

/// docs/methods/composition.md. Errors: `too_few_samples`, `too_few_parts`, `analyte_twice`, `mixed_units`,
/// `negative_value`, `missing_cells`, `all_below`, `limit_unknown`, `bad_share`, `bad_limit`, `no_analyte`,
/// `limits_too_high`.
Result<Prepared> prepare(const Composition& table, const PreparationSettings& settings);

}  // namespace sherd::chemistry
