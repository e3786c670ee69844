#pragma once

#include <string>

#include "base/result.h"
#include "desk/chemistry/import_readings.h"
#include "desk/frame/session.h"
#include "exchange/readings/reading_tables.h"

namespace sherd::desk {

/// Ties each reading to what its sample is the name of: a standard or a blank; a sample of the register, and through it
/// its line; a line by its record number. Readings whose names the store has already become problems. Fills `samples`
/// and `rule` of the response.
Result<void> tie_readings(const Session& session, const std::string& cut, exchange::ReadingTables& tables,
                          ImportReadingsResponse& response);

/// Names are compared without signs and capitals: "SRM 679" is "srm-679".
std::string folded_name(std::string_view name);

}  // namespace sherd::desk
