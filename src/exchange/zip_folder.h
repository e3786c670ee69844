#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.h"

namespace sherd::exchange {

/// Zips files of a folder on the disk, under `top`/NAME each, into a file that must not be there: written beside and
/// renamed. Times are 1 January 2000, so that the same files give the same bytes. Error `not_writable`.
Result<void> zip_folder(const std::string& folder, const std::vector<std::string>& names, const std::string& top,
                        const std::string& out);

/// Unpacks a zip file of one top folder into a folder that is there; names that would lie elsewhere, and what unpacks
/// to more than `most_bytes`, are refused. The name of the top folder. Errors: `no_file`, `damaged_file`,
/// `unsafe_file`, `unzipped_too_large`, `not_writable`.
Result<std::string> unzip_folder(const std::string& file, const std::string& into, std::uint64_t most_bytes);

}  // namespace sherd::exchange
