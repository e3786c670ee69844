#pragma once

#include <vector>

#include "desk/report/report_need.h"

namespace sherd::desk {

struct ReportInput;

/// By the published checklists (report_outline.h), in the order of the report.
std::vector<ReportNeed> needs_of(const ReportInput& input);

}  // namespace sherd::desk
