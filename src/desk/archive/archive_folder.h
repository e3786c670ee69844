#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "desk/archive/archive_names.h"
#include "desk/frame/environment.h"

namespace sherd::desk {

/// A file of an archive, with what is said of it.
struct ArchivedFile {
  std::string path;  ///< in the archive
  std::string category, title, description, tag, history;
  std::int64_t bytes = 0;
  std::string sha256;
};

inline constexpr std::string_view kManifest = "manifest-sha256.txt";

/// An archive while it is written: beside its place, under another name. Without `finish` nothing of it stays.
class ArchiveFolder {
 public:
  /// `place` must not be there, or be an empty folder. Errors: `folder_in_use`, `not_writable`.
  static Result<ArchiveFolder> begin(Environment& environment, const std::string& place);
  ArchiveFolder(ArchiveFolder&& other) noexcept;
  ArchiveFolder& operator=(ArchiveFolder&&) = delete;
  ~ArchiveFolder();

  /// Errors: `not_writable`; `bad_file_name` (our own fault) where the name is not as archives ask for.
  Result<void> add(ArchivedFile file, std::string_view bytes);
  /// A file that someone else has written into the folder, at `part() + path`.
  Result<void> take(ArchivedFile file);
  /// Makes the folder of a path.
  Result<void> make_room(const std::string& path);
  FreeNames& names() { return names_; }
  const std::vector<ArchivedFile>& files() const { return files_; }
  /// The folder as it is named now.
  const std::string& part() const { return part_; }

  /// Writes the list of checksums, whose own SHA-256 it returns.
  Result<std::string> seal();
  /// Puts the folder in its place.
  Result<void> finish();

 private:
  ArchiveFolder(Environment& environment, std::string place, std::string part)
      : environment_(&environment), place_(std::move(place)), part_(std::move(part)) {}

  Environment* environment_;
  std::string place_, part_;
  FreeNames names_;
  std::vector<ArchivedFile> files_;
  bool open_ = true;
};

}  // namespace sherd::desk
