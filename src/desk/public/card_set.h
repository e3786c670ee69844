#pragma once

#include <string>
#include <vector>

#include "desk/public/object_cards.h"
#include "desk/public/public_record.h"
#include "figure/object_card.h"
#include "report/public_pages.h"

/// Objects as cards and as pages.
namespace sherd::desk {

/// Errors: those of the store, for photographs.
Result<figure::ObjectCard> card_of(const PublicObject& object, const PublicRecord& record, const Session& session);

report::PublicPages pages_of(const std::vector<PublicObject>& objects, const std::vector<figure::ObjectCard>& cards,
                             const PublicRecord& record, const CardsResponse& response, const std::string& title,
                             bool small);

/// Fills `reading` and `readings`, and a warning for each that is too hard at twelve.
void measure(CardsResponse& response);

}  // namespace sherd::desk
