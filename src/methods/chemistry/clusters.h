#pragma once

#include "base/progress.h"
#include "base/result.h"
#include "methods/chemistry/prepare.h"
#include "methods/statistics/clusters.h"

namespace sherd::chemistry {

/// Clusters of the samples by straight-line distance of the prepared values, standardised first if asked: of log-ratios
/// that is Aitchison's distance. `settings.groups` are those of the samples, filled in here. Errors: those of
/// `statistics::check_clustering`; `constant_variable`, `stopped`.
Result<statistics::Clusters> clusters(const Prepared& samples, bool standardise,
                                      statistics::ClusteringSettings settings, Progress& progress);

}  // namespace sherd::chemistry
