#pragma once

#include <vector>

#include "base/csv.h"
#include "base/result.h"
#include "model/dated_row.h"
#include "model/mark_tables.h"

/// What features of a piece say of its date, as far as the shipped tables know: data/reference/evidence.csv and the
/// rules of the marks.
namespace sherd::reference {

/// The rows of evidence.csv, header first; its columns are those of the kind `evidence`, years historical. Error
/// `bad_table`, naming row and column: no whole number or the year 0, a word that is not in the list, nothing that
/// could be seen, no reference, an end before its start, or the same keys and reference twice.
Result<std::vector<DatedRow>> evidence_from(const CsvRows& rows);

/// The name of a mark among the values of the key `mark`: "cipher_gr" -> "cipher gr".
std::string mark_value(std::string_view mark);
/// One row a mark and source. Where a source gives several first years, the row begins with the earliest and is in full
/// use from the latest of them. A rule that dates a stamp and not the vessel gives no earliest year: a vessel may be
/// stamped long after it was made, but is no later than its stamp. Known exceptions of another source are told in the
/// notes, as are the cautions.
std::vector<DatedRow> evidence_of_marks(const MarkTables& marks);

/// Both, read once.
const std::vector<DatedRow>& evidence_rows();

}  // namespace sherd::reference
