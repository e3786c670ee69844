#pragma once

#include "base/result.h"
#include "desk/chemistry/chemistry.h"

namespace sherd::desk {

/// Lines of a plain table: columns certified (or x) and reported (or y), a row a standard or a reading of one; standard
/// and analyte where there are several; certified_sd, reported_sd, weight and n where they are known. Rows of one
/// standard are averaged where the line is weighted or has errors in both; else each is a point. Errors: `no_heading`,
/// `not_a_number`, those of `chemistry::calibrate`.
Result<void> calibrate_table(const ChemistryRequest& request, Environment& environment, ChemistryResponse& response);

}  // namespace sherd::desk
