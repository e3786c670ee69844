#pragma once

#include "methods/statistics/clusters_result.h"

namespace sherd::compare {

/// Clusters are made of anything that has distances: compositions, too.
using statistics::Clusters;
using statistics::Member;
using statistics::Merge;

}  // namespace sherd::compare
