#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "desk/frame/environment.h"

namespace sherd::desk {

/// A file that is not as the archive was sealed.
struct ArchiveFault {
  std::string path;
  std::string what;  ///< changed, missing, added, unreadable

  template <class V>
  static void fields(V& v) {
    v.field("path", &ArchiveFault::path);
    v.field("what", &ArchiveFault::what);
  }
};

/// An archive that is opened for reading: a folder, or a zip file unpacked into a folder that goes with this.
class ReadArchive {
 public:
  /// True for a folder, and for a name that ends in .zip.
  static bool is_archive(Environment& environment, const std::string& path);
  /// Errors: `not_an_archive` where there is no list of checksums or description; those of the file.
  static Result<ReadArchive> open(Environment& environment, const std::string& path);
  ReadArchive(ReadArchive&& other) noexcept;
  ReadArchive& operator=(ReadArchive&&) = delete;
  ~ReadArchive();

  /// Reads every file and compares; nothing where all is as it was. Errors: `stopped`.
  Result<std::vector<ArchiveFault>> faults(Progress& progress);
  /// Faults within what the files say of one another, one sentence each: numbers of rows, the two lists of checksums.
  Result<std::vector<std::string>> contradictions();

  const std::string& seal() const { return seal_; }  ///< SHA-256 of the list of checksums
  std::int64_t files() const { return static_cast<std::int64_t>(hashes_.size()); }
  std::string site, last_change;
  std::int64_t changes = 0, next_record = 1;

  Result<std::string> read(const std::string& path) const;
  bool has(const std::string& path) const { return hashes_.contains(path); }
  /// The file with that hash; "" for none.
  std::string with_hash(const std::string& sha256) const;

 private:
  explicit ReadArchive(Environment& environment) : environment_(&environment) {}
  Result<void> read_manifest();
  Result<void> read_package();

  struct Resource {
    std::string path, hash;
    std::int64_t rows = -1;
  };

  Environment* environment_;
  std::string folder_, unpacked_;  ///< unpacked_: to be removed in the end
  std::string seal_;
  std::map<std::string, std::string> hashes_;  ///< path -> SHA-256
  std::vector<Resource> resources_;
};

/// Makes a store of an archive: every row with its history, documents, pictures. Errors: `damaged_archive` where a file
/// is not as it was sealed; those of the stores.
Result<void> restore_archive(const std::string& archive, const std::string& store, Environment& environment,
                             Progress& progress);

}  // namespace sherd::desk
