#pragma once

#include <vector>

#include "samples.h"

namespace sherd::figure {

/// Figures of assemblages compared.
std::vector<Sample> compare_samples();

}  // namespace sherd::figure
