#pragma once

#include "base/csv.h"
#include "base/result.h"
#include "model/mark_tables.h"

namespace sherd::notation {

/// The rows of the files diamond_*.csv, headers first.
struct DiamondRows {
  const CsvRows& position;
  const CsvRows& year;
  const CsvRows& month;
  const CsvRows& classes;
  const CsvRows& exceptions;
};

/// Error `bad_table`, naming row and column.
Result<DiamondTables> diamond_tables(const DiamondRows& rows);

/// The rows of mark_rules.csv, mark_wordings.csv, mark_cautions.csv, verification_numbers.csv, registered_numbers.csv.
struct MarkRows {
  const CsvRows& rules;
  const CsvRows& wordings;
  const CsvRows& cautions;
  const CsvRows& verification;
  const CsvRows& registered;
};

/// Error `bad_table`, naming row and column; also for a wording or caution without a rule.
Result<MarkTables> mark_tables(const MarkRows& rows);

}  // namespace sherd::notation
