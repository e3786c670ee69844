#pragma once

#include <string>
#include <vector>

#include "desk/chemistry/chemistry.h"
#include "desk/chemistry/store_readings.h"
#include "methods/chemistry/composition.h"
#include "methods/chemistry/origin.h"

namespace sherd::desk {

/// Compositions with their groups, wherever they came from.
struct CompositionInput {
  chemistry::Composition composition;
  std::vector<std::string> fabrics;  ///< of the rows of a store, "" where no line is known
  std::vector<chemistry::Source> sources;
  ComposedTable about;
  Instrument instrument;  ///< of a store
  std::vector<std::string> warnings;
  Provenance provenance;
};

/// Errors: see `study_chemistry`.
Result<CompositionInput> composition_of_table(const ChemistryRequest& request, Environment& environment);
Result<CompositionInput> composition_of_store(const ChemistryRequest& request, Environment& environment);

/// Leaves out what the request does: ids, groups, analytes. Error `no_column` where a name is not there.
Result<void> choose(const ChemistryRequest& request, CompositionInput& input);
/// One unit for all: ppm where all are, else percent. Counts what is below, missing and zero.
void finish(CompositionInput& input);

/// The line that the request asks for. Error `bad_choice`.
Result<InstrumentChoice> instrument_choice(const ChemistryRequest& request);

}  // namespace sherd::desk
