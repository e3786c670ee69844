#pragma once

#include <memory>

#include "exchange/sheets/row_source.h"
#include "exchange/sheets/zip_file.h"

namespace sherd::exchange {

/// One worksheet of an XLSX, streamed (ECMA-376 part 1, 18.3). Numbers as `styled_text` gives them; TRUE and FALSE;
/// error values and formulas without a stored value have a problem. A merged area has its value in its first cell.
/// Errors: those of `open_table`.
Result<std::unique_ptr<RowSource>> open_xlsx(ZipFile zip, std::string_view file_name, std::string_view sheet,
                                             const ReadLimits& limits);

}  // namespace sherd::exchange
