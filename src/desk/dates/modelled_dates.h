#pragma once

#include "base/progress.h"
#include "base/result.h"
#include "desk/dates/date_contexts.h"
#include "desk/dates/dated_record.h"
#include "methods/stratigraphy/settings.h"

namespace sherd::desk {

/// The settings that a request asks for: those of its file, then its own options. Errors: `bad_settings`,
/// `unknown_word`, those of reading the file.
Result<stratigraphy::SequenceSettings> sequence_settings(const DateRequest& request, Environment& environment);

/// The year in which the program runs.
Result<Year> present_year(const Environment& environment);

/// Dates the contexts of `dated` by the model (docs/methods/stratigraphy.md) and puts what it says into the contexts,
/// phases and provenance of the answer. Where the answer is of one context by its own pottery, no relation, limit or
/// phase goes in. Errors: `bad_window`, `bad_pair`, those of date_in_sequence.
Result<void> model_dates(const DateRequest& request, const stratigraphy::SequenceSettings& settings,
                         const Record& record, const DatedRecord& dated, const Environment& environment,
                         DateResponse& response, Progress& progress);

}  // namespace sherd::desk
