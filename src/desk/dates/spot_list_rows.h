#pragma once

#include <vector>

#include "desk/dates/dated_record.h"
#include "model/record_more.h"
#include "report/spot_list.h"

namespace sherd::desk {

/// The rows of the list: every context that holds pottery, in natural order. A context without lines stands with what
/// its scan says.
std::vector<report::SpotListRow> spot_list_rows(const Record& record, const DatedRecord& dated,
                                                const std::vector<Scan>& scans = {});

/// What differs between two lists, by context; contexts that came or went stand with column "context".
std::vector<report::SpotListChange> spot_list_changes(const std::vector<report::SpotListRow>& before,
                                                      const std::vector<report::SpotListRow>& now);

/// A list as the store keeps it, and back. Error `damaged_document`.
std::string spot_list_csv(const std::vector<report::SpotListRow>& rows);
Result<std::vector<report::SpotListRow>> spot_list_from_csv(std::string_view csv);

}  // namespace sherd::desk
