#pragma once

#include "desk/costs/cost_sheet.h"
#include "desk/use_case.h"

namespace sherd::desk {

/// Those that say what the work costs.
template <class Visit>
void for_each_costs_use_case(Visit& visit) {
  visit(UseCase<CostSheetRequest, CostSheetResponse>{"cost-sheet", "GET", "/api/cost-sheet",
                                                     "hours and cost by stage, and the hours used", show_cost_sheet});
}

}  // namespace sherd::desk
