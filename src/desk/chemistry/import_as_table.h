#pragma once

#include <optional>

#include "desk/frame/session.h"
#include "desk/site/import_table.h"

namespace sherd::desk {

/// What a file of amounts may leave open, in the words of `import-readings`.
struct AmountWords {
  std::string units, errors, prefix;
};

/// `import --as readings` of a file that holds amounts: as `import_readings` does it; nothing where the file is the
/// record's own table of readings, without amounts.
Result<std::optional<ImportResponse>> import_amounts(const ImportRequest& request, const AmountWords& words,
                                                     Environment& environment, Progress& progress);

/// What speaks against the values of the reference materials, as warnings of an import.
Result<std::vector<std::string>> certificate_warnings(const Session& session);

}  // namespace sherd::desk
