#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/result.h"
#include "desk/archive/archive_folder.h"
#include "desk/frame/session.h"
#include "store/store.h"

namespace sherd::desk {

/// Where the bytes of each document lie in an archive: SHA-256 -> path.
using DocumentPaths = std::map<std::string, std::string, std::less<>>;

/// The documents of the record go into the folder, each once, those that have been replaced in its history: pictures
/// that are shown by the number of their picture, files that were read in, and all others. `documents`: every version.
/// Errors: those of store and folder.
Result<DocumentPaths> archive_documents(const Session& session, const TableVersions& documents, ArchiveFolder& folder);

/// Pictures of the record whose bytes the store does not have: "picture P1: files/HASH.jpg".
Result<std::vector<std::string>> missing_pictures(const Session& session);

}  // namespace sherd::desk
