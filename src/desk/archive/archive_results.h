#pragma once

#include <string>
#include <vector>

#include "base/progress.h"
#include "desk/archive/archive_about.h"
#include "desk/archive/archive_folder.h"
#include "desk/archive/archive_tables.h"

namespace sherd::desk {

/// What is computed from the record and goes with it.
struct ArchivedResults {
  std::vector<ArchivedTable> tables;
  std::vector<std::string> left_out;  ///< what could not be made, and why, one sentence each
};

/// Dates of contexts, quantities, the report with its figures, the stratigraphic diagram, and the settings and seeds of
/// all of these and of what the store keeps. `store`: its address. Errors: those of store and folder; `stopped`.
Result<ArchivedResults> archive_results(const Session& session, const std::string& store, const ArchiveAbout& about,
                                        Environment& environment, ArchiveFolder& folder, Progress& progress);

}  // namespace sherd::desk
