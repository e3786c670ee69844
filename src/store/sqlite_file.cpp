#include "store/sqlite_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <linux/magic.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>
#include <sys/stat.h>
#include <sys/sysmacros.h>
#include <sys/vfs.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string_view>

#include "base/text.h"

namespace sherd::store {

namespace {

std::string folder_of(const std::string& path) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  return folder.empty() ? "." : folder;
}

std::uint32_t big_endian(const std::array<unsigned char, 100>& header, std::size_t at) {
  return static_cast<std::uint32_t>(header[at]) << 24U | static_cast<std::uint32_t>(header[at + 1]) << 16U |
         static_cast<std::uint32_t>(header[at + 2]) << 8U | static_cast<std::uint32_t>(header[at + 3]);
}

std::unexpected<Error> not_a_store(const std::string& path) {
  return fail("not_a_store", fmt::format("{} is not a store", path),
              "Give a file that \"sherdwright new\" or \"sherdwright backup\" made");
}

std::string type_of_mount(const std::string& folder) {
  struct stat status{};
  if (::stat(folder.c_str(), &status) != 0) return {};
  std::ifstream in("/proc/self/mountinfo");
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  return mount_type(text, major(status.st_dev), minor(status.st_dev));
}

std::int64_t size_of(const std::string& path) {
  struct stat status{};
  return ::stat(path.c_str(), &status) == 0 ? status.st_size : 0;
}

}  // namespace

bool file_exists(const std::string& path) {
  struct stat status{};
  return ::lstat(path.c_str(), &status) == 0;
}

Result<void> check_store_path(const std::string& path) {
  struct stat status{};
  if (::stat(path.c_str(), &status) != 0) {
    if (size_of(path + "-wal") > 0) {
      return fail(
          "no_store", fmt::format("there is no store {}, but {}-wal, which belongs to one, is there", path, path),
          fmt::format("The newest changes are in {}-wal: put the store that it belongs to back beside it", path));
    }
    return fail("no_store", fmt::format("there is no store {}", path),
                fmt::format("Make one with: sherdwright new {} --site CODE", path));
  }
  if (!S_ISREG(status.st_mode) || status.st_size == 0) return not_a_store(path);
  return check_local(path);
}

bool is_network_file_system(std::int64_t magic) {
  constexpr std::int64_t kCifs = 0xFF534D42;  // statfs(2); not in linux/magic.h of every version
  constexpr std::int64_t kSmb2 = 0xFE534D42;
  constexpr std::int64_t kCeph = 0x00C36400;
  constexpr std::int64_t kKernelAfs = 0x6B414653;  // linux/magic.h: AFS_FS_MAGIC
  constexpr std::int64_t kOcfs2 = 0x7461636F;      // one disk that several machines write to
  constexpr std::int64_t k9p = 0x01021997;         // linux/magic.h: V9FS_MAGIC
  constexpr std::array kNetwork{std::int64_t{NFS_SUPER_MAGIC},
                                std::int64_t{SMB_SUPER_MAGIC},
                                kCifs,
                                kSmb2,
                                std::int64_t{AFS_SUPER_MAGIC},
                                std::int64_t{NCP_SUPER_MAGIC},
                                std::int64_t{CODA_SUPER_MAGIC},
                                kCeph,
                                kKernelAfs,
                                kOcfs2,
                                k9p};
  return std::ranges::find(kNetwork, magic & 0xFFFFFFFF) != kNetwork.end();
}

std::string mount_type(std::string_view mountinfo, unsigned major, unsigned minor) {
  // 36 35 98:0 /mnt1 /mnt2 rw,noatime master:1 - ext3 /dev/root rw
  const std::string device = fmt::format("{}:{}", major, minor);
  for (const std::string_view line : split(mountinfo, '\n')) {
    const auto fields = split(line, ' ');
    const auto dash = std::ranges::find(fields, "-");
    if (fields.size() < 3 || fields[2] != device || fields.end() - dash < 2) continue;
    return std::string(dash[1]);
  }
  return {};
}

bool may_be_network(std::string_view type) {
  // Folders of this machine that a program encrypts, joins or lays one over another.
  constexpr std::array<std::string_view, 5> kLocal{"fuse.gocryptfs", "fuse.encfs", "fuse.cryfs", "fuse.mergerfs",
                                                   "fuse.fuse-overlayfs"};
  if (type == "virtiofs" || type == "fuse") return true;
  return type.starts_with("fuse.") && std::ranges::find(kLocal, type) == kLocal.end();
}

Result<void> check_local(const std::string& path) {
  struct statfs status{};
  if (::statfs(folder_of(path).c_str(), &status) != 0) {
    return fail("no_folder", fmt::format("the folder of {} cannot be reached: {}", path, std::strerror(errno)),
                "Make the folder first, or give another path");
  }
  const auto magic = static_cast<std::int64_t>(status.f_type) & 0xFFFFFFFF;
  constexpr const char* kHint =
      "Keep the store on the machine's own disk, and run \"sherdwright serve\" on that machine for the others";
  if (is_network_file_system(magic)) {
    return fail("network_folder", fmt::format("{} lies in a network folder, where a store can be damaged", path),
                kHint);
  }
  if (magic != FUSE_SUPER_MAGIC) return {};
  const std::string type = type_of_mount(folder_of(path));
  if (!may_be_network(type)) return {};
  return fail(
      "network_folder",
      fmt::format("{} lies in a folder ({}) that may be another machine's, where a store can be damaged", path, type),
      kHint);
}

Result<void> check_header(Handle handle, const std::string& path) {
  sqlite_api::sqlite3_file* file = nullptr;
  sqlite_api::sqlite3_file_control(handle, "main", SQLITE_FCNTL_FILE_POINTER, static_cast<void*>(&file));
  std::array<unsigned char, 100> header{};
  sqlite_api::sqlite3_int64 size = 0;
  if (file == nullptr || file->pMethods == nullptr || file->pMethods->xFileSize(file, &size) != SQLITE_OK ||
      file->pMethods->xRead(file, header.data(), static_cast<int>(header.size()), 0) != SQLITE_OK) {
    return not_a_store(path);
  }
  // Offsets: "Database File Format", section 1.3, sqlite.org/fileformat2.html
  constexpr std::string_view kMagic("SQLite format 3\0", 16);
  if (!std::equal(kMagic.begin(), kMagic.end(), header.begin())) return not_a_store(path);
  if (big_endian(header, 68) != static_cast<std::uint32_t>(kApplicationId)) return not_a_store(path);
  std::int64_t page_size = header[16] * 256 + header[17];
  if (page_size == 1) page_size = 65536;
  const bool counts = big_endian(header, 24) == big_endian(header, 92);
  const bool cut = counts && size < page_size * static_cast<std::int64_t>(big_endian(header, 28));
  if (cut && size_of(path + "-wal") == 0) {
    return fail("damaged_store",
                fmt::format("{} is cut short: {} of {} bytes are there", path, size,
                            page_size * static_cast<std::int64_t>(big_endian(header, 28))),
                "Restore the last backup: sherdwright restore BACKUP NEW-STORE");
  }
  return {};
}

std::string name_beside(const std::string& path, const std::string& word) {
  std::string name = fmt::format("{}.{}-{}", path, word, ::getpid());
  for (int n = 1; file_exists(name); ++n) name = fmt::format("{}.{}-{}-{}", path, word, ::getpid(), n);
  return name;
}

Result<void> put_in_place(const std::string& from, const std::string& path) {
  int failed = ::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, path.c_str(), RENAME_NOREPLACE) == 0 ? 0 : errno;
  if (failed == EINVAL || failed == ENOSYS) {  // a file system that cannot promise it by itself
    failed = ::link(from.c_str(), path.c_str()) == 0 ? 0 : errno;
    if (failed == 0) ::unlink(from.c_str());
  }
  if (failed == EPERM && !file_exists(path)) failed = ::rename(from.c_str(), path.c_str()) == 0 ? 0 : errno;
  if (failed == EEXIST || (failed == EPERM && file_exists(path))) {
    return fail("store_exists", fmt::format("{} is there already", path), "Give a name that is not taken");
  }
  if (failed != 0) {
    return fail("cannot_write", fmt::format("{} cannot be written: {}", path, std::strerror(failed)),
                "Check the folder and its permissions");
  }
  const int folder = ::open(folder_of(path).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (folder >= 0) {
    ::fsync(folder);
    ::close(folder);
  }
  return {};
}

void discard(const std::string& path) {
  for (const char* suffix : {"", "-journal", "-wal", "-shm"}) ::unlink((path + suffix).c_str());
}

}  // namespace sherd::store
