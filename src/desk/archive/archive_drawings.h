#pragma once

#include "base/progress.h"
#include "desk/archive/archive_folder.h"
#include "desk/frame/session.h"

namespace sherd::desk {

/// Each piece that has a section, drawn as SVG and PDF in `drawings/`, at the scale that the register says of it (1:4
/// unless it does), with its number in the catalogue; what of it could not be drawn stands in the file's description.
/// Errors: those of store and folder; `stopped`.
Result<void> archive_drawings(const Session& session, ArchiveFolder& folder, Progress& progress);

}  // namespace sherd::desk
