#pragma once

#include <optional>
#include <string>

#include "base/progress.h"
#include "base/result.h"
#include "desk/frame/environment.h"
#include "report/document.h"

namespace sherd::desk {

/// What the readings are worth and say: which analytes may be used and why, the lines, fabrics against chem groups, who
/// disagrees, and what cannot be concluded. Nothing where the store has no readings.
Result<std::optional<report::Section>> chemistry_section(const report::Words& words, const std::string& store,
                                                         const std::string& site, Environment& environment,
                                                         Progress& progress);

}  // namespace sherd::desk
