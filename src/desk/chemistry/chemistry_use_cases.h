#pragma once

#include "desk/chemistry/chemistry.h"
#include "desk/chemistry/import_readings.h"
#include "desk/chemistry/list_samples.h"
#include "desk/chemistry/list_standards.h"
#include "desk/use_case.h"

namespace sherd::desk {

/// Those of the chemistry of the clay, in the order of the table.
template <class Visit>
void for_each_chemistry_use_case(Visit& visit) {
  visit(UseCase<ImportReadingsRequest, ImportReadingsResponse>{
      "import-readings", "POST", "/api/readings", "reads an instrument's file into the store", import_readings});
  visit(UseCase<StandardsRequest, StandardsResponse>{"standards", "GET", "/api/standards",
                                                     "reference materials, and what speaks against their values",
                                                     list_standards});
  visit(UseCase<SamplesRequest, SamplesResponse>{"samples", "GET", "/api/samples",
                                                 "the register of samples, and what came of each", list_samples});
  visit(UseCase<ChemistryRequest, ChemistryResponse>{
      "chemistry", "GET", "/api/chemistry", "composition of the clay, of a store or of a table", study_chemistry});
}

}  // namespace sherd::desk
