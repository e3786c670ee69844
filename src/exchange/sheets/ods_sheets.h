#pragma once

#include <string>
#include <vector>

#include "exchange/sheets/xml_reader.h"

namespace sherd::exchange {

struct OdsSheets {
  std::vector<std::string> names;
  std::vector<bool> hidden;  ///< by `table:display` of the sheet's style (OpenDocument 1.2 part 1, clause 20)
};

/// Reads the whole content once for the names of its sheets, which OpenDocument lists nowhere. Errors: `damaged_file`.
Result<OdsSheets> list_ods_sheets(ZipFile& zip);

}  // namespace sherd::exchange
