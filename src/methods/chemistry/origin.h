#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/chemistry/membership.h"
#include "methods/chemistry/origin_result.h"

namespace sherd::chemistry {

/// Where the reference samples of a group come from. Coordinates in any grid of metres.
struct Source {
  std::string group, name;
  std::optional<double> east, north;
};

struct OriginSettings {
  double level = 0.01;           ///< a probability below it rejects a candidate; common practice, no source
  std::vector<std::string> ask;  ///< ids of the sherds asked about; empty: those without a group
};

/// Candidates for each sherd among the reference groups, the rejected ones and "none of these": docs/methods/origin.md.
/// A sherd asked about that is in a group is left out of it. Errors: those of `membership`; `nothing_asked`,
/// `unknown_sample`.
Result<Origin> origin(const Prepared& samples, const std::vector<Source>& sources, const OriginSettings& settings,
                      Progress& progress);

}  // namespace sherd::chemistry
