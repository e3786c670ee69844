#pragma once

#include <memory>

#include "exchange/sheets/row_source.h"
#include "exchange/sheets/zip_file.h"

namespace sherd::exchange {

/// One sheet of an OpenDocument spreadsheet, streamed (OASIS OpenDocument 1.2 part 1, clauses 6.1, 9.1, 19.385).
/// Values are taken from the cell's value attributes, so numbers have all their digits; text has its paragraphs joined
/// by line feeds, without notes and drawings. Formulas without a stored value, error values and what lies hidden under
/// a merged cell have a problem. Errors: those of `open_table`.
Result<std::unique_ptr<RowSource>> open_ods(ZipFile zip, std::string_view file_name, std::string_view sheet,
                                            const ReadLimits& limits);

}  // namespace sherd::exchange
