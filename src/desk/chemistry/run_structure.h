#pragma once

#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "desk/chemistry/chemistry.h"
#include "desk/frame/environment.h"
#include "methods/chemistry/composition.h"
#include "methods/chemistry/origin.h"

namespace sherd::desk {

/// Components, clusters, membership, discriminant, manova, variation, outliers, dilution or origin of a composition,
/// and the figure of it. Errors: those of the methods; `bad_choice`, `no_figure`, `unknown_format`, those of files.
Result<void> run_structure(const ChemistryRequest& request, const chemistry::Composition& composition,
                           const std::vector<chemistry::Source>& sources, ChemistryResponse& response,
                           Environment& environment, Progress& progress);

}  // namespace sherd::desk
