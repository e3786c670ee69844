#pragma once

#include <memory>
#include <span>
#include <string>
#include <string_view>

#include "exchange/sheets/row_source.h"

struct zip;
struct zip_file;

namespace sherd::exchange {

/// `damaged_file` with the hint to save the table again.
std::unexpected<Error> damaged(std::string message);

struct ZipFileState;

/// One part of a zip file, unpacked as it is read. Must not outlive its ZipFile.
class ZipEntry {
 public:
  /// Unpacks up to `buffer.size()` bytes; 0 at the end, when the checksum has been found right.
  /// Errors: `damaged_file`, `unzipped_too_large`, `encrypted_file`.
  Result<std::size_t> read(std::span<char> buffer);
  const std::string& name() const { return name_; }

 private:
  friend class ZipFile;
  struct Close {
    void operator()(zip_file* file) const;
  };
  std::unique_ptr<zip_file, Close> file_;
  std::string name_;
  std::uint64_t zipped_ = 0;
  std::uint64_t unzipped_ = 0;
  ZipFileState* state_ = nullptr;
};

/// A zip file in memory; the bytes must outlive it.
class ZipFile {
 public:
  /// Errors: `damaged_file`.
  static Result<ZipFile> open(std::string_view bytes, const ReadLimits& limits);

  /// Names are compared without regard to case, as ECMA-376 part 2 (6.2.2.3, part name equivalence) asks for.
  bool has(const std::string& name) const;
  /// Errors: `damaged_file` where there is no such part.
  Result<ZipEntry> entry(const std::string& name);
  /// The first `max_bytes` of a part. Errors: as `entry` and `ZipEntry::read`.
  Result<std::string> beginning(const std::string& name, std::size_t max_bytes);

 private:
  struct Discard {
    void operator()(zip* archive) const;
  };
  struct Free {
    void operator()(ZipFileState* state) const;
  };
  std::unique_ptr<ZipFileState, Free> state_;  // at a fixed address: the entries point at it
  std::unique_ptr<zip, Discard> archive_;
};

}  // namespace sherd::exchange
