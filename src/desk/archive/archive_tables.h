#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "desk/archive/archive_csv.h"
#include "desk/archive/archive_folder.h"
#include "desk/frame/session.h"

namespace sherd::desk {

/// A column of a table that lies in an archive, with all that is said of it.
struct ArchivedField {
  std::string name, description, unit;
  std::string type;   ///< of Table Schema: string, integer, number, date
  std::string codes;  ///< the closed list that its values are of, parted by "|"
  std::size_t length = 0;
  bool key = false, required = false;
  std::string refers;  ///< "contexts.context"; "" for none, or where a value leads nowhere
};

struct ArchivedTable {
  std::string name, path, description;
  std::vector<ArchivedField> fields;
  std::int64_t rows = 0;
  bool history = false;  ///< former versions, or of the history itself
};

/// What went into the archive of the store's own tables.
struct ArchivedTables {
  std::vector<ArchivedTable> tables;
  std::vector<std::string> dangling;  ///< references that lead nowhere, one sentence a column
};

/// Every table with its former versions, documents, pictures and the list of changes go into the folder. Errors: those
/// of store and folder; `stopped`.
Result<ArchivedTables> archive_tables(const Session& session, ArchiveFolder& folder, Progress& progress);

}  // namespace sherd::desk
