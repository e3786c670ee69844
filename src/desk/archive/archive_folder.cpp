#include "desk/archive/archive_folder.h"

#include <algorithm>
#include <utility>

#include "base/hash.h"
#include "base/text.h"

namespace sherd::desk {

Result<ArchiveFolder> ArchiveFolder::begin(Environment& environment, const std::string& place) {
  Files& files = *environment.files;
  if (files.exists(place)) {
    if (!files.is_folder(place)) {
      return fail("folder_in_use", place + " is a file, and no archive can be made there",
                  "name a folder that is not there");
    }
    SHERD_TRY(const auto inside, files.list(place));
    if (!inside.empty()) {
      return fail(
          "folder_in_use",
          "the folder " + place + " is not empty: it holds " + inside.front() + (inside.size() > 1 ? " and more" : ""),
          "name a folder that is not there, or an empty one");
    }
  }
  ArchiveFolder folder(environment, place, place + ".part-" + environment.new_uid().substr(0, 8));
  SHERD_CHECK(files.make_folder(folder.part_));
  return folder;
}

ArchiveFolder::ArchiveFolder(ArchiveFolder&& other) noexcept
    : environment_(other.environment_),
      place_(std::move(other.place_)),
      part_(std::move(other.part_)),
      names_(std::move(other.names_)),
      files_(std::move(other.files_)),
      open_(std::exchange(other.open_, false)) {}

ArchiveFolder::~ArchiveFolder() {
  if (open_) (void)environment_->files->remove_folder(part_);
}

Result<void> ArchiveFolder::make_room(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  if (slash == std::string::npos) return {};
  return environment_->files->make_folder(part_ + "/" + path.substr(0, slash));
}

Result<void> ArchiveFolder::add(ArchivedFile file, std::string_view bytes) {
  const auto troubles = name_troubles(file.path);
  if (!troubles.empty()) return fail(ErrorKind::internal, "bad_file_name", troubles.front());
  SHERD_CHECK(make_room(file.path));
  SHERD_CHECK(environment_->files->write(part_ + "/" + file.path, bytes));
  file.bytes = std::ssize(bytes);
  file.sha256 = sha256(bytes);
  files_.push_back(std::move(file));
  return {};
}

Result<void> ArchiveFolder::take(ArchivedFile file) {
  const auto troubles = name_troubles(file.path);
  if (!troubles.empty()) return fail(ErrorKind::internal, "bad_file_name", troubles.front());
  SHERD_TRY(const std::string bytes, environment_->files->read(part_ + "/" + file.path));
  file.bytes = std::ssize(bytes);
  file.sha256 = sha256(bytes);
  files_.push_back(std::move(file));
  return {};
}

Result<std::string> ArchiveFolder::seal() {
  std::ranges::sort(files_, {}, &ArchivedFile::path);
  std::string text;
  for (const ArchivedFile& file : files_) text += file.sha256 + "  " + file.path + "\n";
  SHERD_CHECK(environment_->files->write(part_ + "/" + std::string(kManifest), text));
  return sha256(text);
}

Result<void> ArchiveFolder::finish() {
  SHERD_CHECK(environment_->files->move(part_, place_));
  open_ = false;
  return {};
}

}  // namespace sherd::desk
