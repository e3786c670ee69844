#pragma once

#include "base/result.h"
#include "desk/chemistry/composition_input.h"

namespace sherd::desk {

/// Chem groups against fabrics, and the sherds that do not go with the rest of their fabric: the usual group of a
/// fabric is the one that more than half of its samples are of. Error `no_groups`.
Result<void> groups_against_fabrics(const CompositionInput& input, ChemistryResponse& response);

}  // namespace sherd::desk
