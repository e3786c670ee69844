#include <unistd.h>

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include "exchange/zip_folder.h"

namespace fs = std::filesystem;

namespace {

/// A folder of this process, gone at its end.
struct Folder {
  fs::path path = fs::temp_directory_path() / ("fuzz_zip_" + std::to_string(::getpid()));
  Folder() { fs::create_directories(path); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path, ignored);
  }
};

}  // namespace

/// Any bytes as the zip file of an archive: nothing comes to lie beside the folder it is unpacked into, and no more
/// than was allowed.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  constexpr std::uint64_t kMostBytes = 1 << 20;
  static const Folder kFolder;
  const fs::path file = kFolder.path / "in.zip", into = kFolder.path / "into";
  std::ofstream(file, std::ios::binary).write(reinterpret_cast<const char*>(data), static_cast<std::streamsize>(size));
  fs::remove_all(into);
  fs::create_directories(into);
  (void)sherd::exchange::unzip_folder(file.string(), into.string(), kMostBytes);
  std::uint64_t bytes = 0;
  for (const auto& one : fs::recursive_directory_iterator(into)) {
    if (one.is_symlink()) __builtin_trap();
    if (one.is_regular_file()) bytes += one.file_size();
  }
  if (bytes > kMostBytes) __builtin_trap();
  std::size_t beside = 0;
  for ([[maybe_unused]] const auto& one : fs::directory_iterator(kFolder.path)) ++beside;
  if (beside != 2) __builtin_trap();
  return 0;
}
