#pragma once

#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "desk/chemistry/chemistry.h"
#include "methods/chemistry/composition.h"
#include "methods/chemistry/origin.h"

namespace sherd::desk {

/// Components, clusters, membership, discriminant, manova, variation, outliers, dilution or origin of a composition.
/// Errors: those of the methods; `bad_choice`.
Result<void> run_structure(const ChemistryRequest& request, const chemistry::Composition& composition,
                           const std::vector<chemistry::Source>& sources, ChemistryResponse& response,
                           Progress& progress);

}  // namespace sherd::desk
