#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/dating/density.h"
#include "methods/stratigraphy/result.h"
#include "methods/stratigraphy/settings.h"
#include "methods/stratigraphy/vessel_kind.h"
#include "model/record.h"

namespace sherd::stratigraphy {

/// A context with its dated pottery.
struct SequenceContext {
  std::string context;
  Deposit deposit = Deposit::unknown;
  Integrity integrity = Integrity::ordinary;
  std::string phase;
  std::optional<Year> not_before, not_after;  ///< hard limits of its beginning and of its completion
  std::string limit_basis;                    ///< one that speaks of pottery is not used unless the settings say so
  std::vector<VesselKind> kinds;
};

struct SequenceInput {
  std::vector<SequenceContext> contexts;
  std::vector<Relation> relations;
  std::vector<Phase> phases;
  std::optional<dating::Window> window;                    ///< else from the evidence
  Year present{2000};                                      ///< no window of its own goes beyond
  std::vector<std::pair<std::string, std::string>> pairs;  ///< later, earlier: to be answered with a probability
};

/// Dates every context from its pottery and its place in the sequence: docs/methods/dates-in-sequence.md. The same
/// input, settings and seed give the same answer whatever the number of threads. `progress` is called from the calling
/// thread.
///
/// Errors: `loop`, `unknown_context`, `unknown_phase`, `context_twice`, `above_itself`, `same_and_ordered`,
/// `ranges_reversed`, `window_too_narrow`, `window_too_wide`, `nothing_to_date`, `contradiction` (no year left for one
/// context), `impossible_order` (none left for several together), `phases_against_order`, `stopped`.
Result<Chronology> date_in_sequence(const SequenceInput& input, const SequenceSettings& settings, Progress& progress);

}  // namespace sherd::stratigraphy
