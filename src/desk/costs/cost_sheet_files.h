#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/result.h"
#include "desk/costs/cost_sheet.h"
#include "model/site.h"

namespace sherd::desk {

enum class CostFormat : std::uint8_t { html, csv, xlsx };

/// By the end of the file's name; nothing where none is named. Error, of kind usage: `unknown_format`.
Result<std::optional<CostFormat>> cost_sheet_format(const std::string& out);

/// The table as a project design needs it: stages and tasks with hours, days, rates and cost. Errors: those of writing.
Result<std::string> cost_sheet_file(CostFormat format, const Site& site, const CostSheetResponse& sheet);

}  // namespace sherd::desk
