#pragma once

#include "base/result.h"
#include "methods/stratigraphy/breaking.h"
#include "methods/stratigraphy/sequence.h"

namespace sherd::stratigraphy {

/// Names that are not there or there twice, ranges the wrong way round, relations that cannot stand.
Result<void> check_input(const SequenceInput& input);

/// The years considered: those asked for, else from the evidence, to decades.
Result<Years> window_of(const SequenceInput& input, const SequenceSettings& settings);

}  // namespace sherd::stratigraphy
