#pragma once

#include "base/csv.h"
#include "base/result.h"
#include "model/scales.h"

namespace sherd::notation {

/// The rows of scales.csv, header first. Error `bad_table`, naming row and column.
Result<ScaleTables> scale_tables(const CsvRows& rows);

}  // namespace sherd::notation
