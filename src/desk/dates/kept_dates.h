#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "desk/dates/date_contexts.h"
#include "desk/dates/kept_date.h"
#include "desk/frame/session.h"

namespace sherd::desk {

struct KeptDates {
  KeptState state;
  std::vector<KeptDate> contexts;
};

/// Keeps the modelled dates of an answer in the store, as a document that takes the place of the former one: change,
/// settings, seed and version with it. That is a change of its own.
Result<std::int64_t> keep_dates(const Session& session, const Environment& environment, const DateResponse& response);

/// What is kept, and whether changes since have made it old: those that touched what dates rest on (contexts,
/// relations, phases, fabrics, forms, dates, sherds, rims, joins). Error `damaged_store` where it cannot be read.
Result<KeptDates> kept_dates(const Session& session, const Environment& environment);

}  // namespace sherd::desk
