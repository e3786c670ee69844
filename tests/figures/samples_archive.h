#pragma once

#include <vector>

#include "samples.h"

namespace sherd::figure {

/// Labels and the tables of an archive.
std::vector<Sample> archive_samples();

}  // namespace sherd::figure
