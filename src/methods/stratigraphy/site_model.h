#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.h"
#include "methods/stratigraphy/laid_down.h"
#include "methods/stratigraphy/problem.h"
#include "methods/stratigraphy/sequence.h"

namespace sherd::stratigraphy {

/// Contexts that are dated as one.
struct SiteUnit {
  std::vector<std::size_t> contexts;  ///< in SequenceInput::contexts
  Deposit deposit = Deposit::unknown;
  Integrity integrity = Integrity::ordinary;
  std::int64_t first = 0, last = 0;  ///< begun in `first` or later, complete in `last` or earlier; from 0
  std::vector<VesselKind> kinds;     ///< of all its contexts
};

/// What there is to date, in years counted from the first of the window.
struct SiteModel {
  Years years;
  std::vector<SiteUnit> units;
  std::vector<std::uint32_t> unit_of;  ///< of each context; kNoUnit where it is not modelled
  Problem problem;                     ///< without tables
  std::vector<std::size_t> phase_of;   ///< of each stretch: in SequenceInput::phases; none where it is the site
  std::vector<std::string> notes;
  std::vector<bool> limit_not_used;  ///< of each context
};

/// Checks the input and puts it together.
Result<SiteModel> site_model(const SequenceInput& input, const SequenceSettings& settings);

/// Kinds that count for a context of this deposit: none for cuts and structures.
bool has_pottery_of_its_own(Deposit deposit);

/// "context 105", "contexts 105 = 106"
std::string unit_name(const SiteUnit& unit, const SequenceInput& input);

/// Why no way is left, in words.
Error impossible_error(const Impossible& impossible, const SiteModel& site, const SequenceInput& input);
/// The same for a single unit without a year.
Error contradiction_error(const SiteUnit& unit, const SiteModel& site, const SequenceInput& input,
                          const SequenceSettings& settings);

}  // namespace sherd::stratigraphy
