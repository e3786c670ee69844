#pragma once

#include <string>

#include "base/result.h"
#include "desk/frame/session.h"

namespace sherd::desk {

/// What can be said of one context by itself: its sheet, its lines with their rims, and the series that dates them.
/// No relation, no other context, no join: only the context's own rows are read, by the store's indexes. Error
/// `no_context` with "did you mean".
Result<Record> load_context(const Session& session, const std::string& context);

}  // namespace sherd::desk
