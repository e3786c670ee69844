#pragma once

#include "desk/assemblage/compare_assemblages.h"
#include "desk/assemblage/published.h"
#include "desk/assemblage/tally_sherds.h"
#include "desk/use_case.h"

namespace sherd::desk {

/// Those that count and compare, in the order of the table.
template <class Visit>
void for_each_assemblage_use_case(Visit& visit) {
  visit(UseCase<TallyRequest, TallyResponse>{"tally", "GET", "/api/tally",
                                             "count, weight, vessels and EVE by any fields", tally_sherds});
  visit(UseCase<CompareRequest, CompareResponse>{"compare", "GET", "/api/comparison",
                                                 "compares assemblages of a store or of a table of counts",
                                                 compare_assemblages});
  visit(UseCase<PublishedRequest, PublishedResponse>{
      "published", "GET", "/api/published", "lists the published assemblages that the store keeps", list_published});
  visit(UseCase<AddPublishedRequest, AddPublishedResponse>{"add-published", "POST", "/api/published",
                                                           "keeps assemblages of other sites as they were published",
                                                           add_published, true});
}

}  // namespace sherd::desk
