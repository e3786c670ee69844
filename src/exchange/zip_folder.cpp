#include "exchange/zip_folder.h"

#include <unistd.h>
#include <zip.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <memory>

#include "base/text.h"

namespace sherd::exchange {

namespace {

namespace fs = std::filesystem;

constexpr std::time_t kTime = 946'684'800;  // 2000-01-01
constexpr std::uint64_t kMostEntries = 100'000;

struct Discard {
  void operator()(zip_t* archive) const { zip_discard(archive); }
};
struct CloseEntry {
  void operator()(zip_file_t* file) const { zip_fclose(file); }
};
using Archive = std::unique_ptr<zip_t, Discard>;

std::unexpected<Error> at(const std::string& path, std::string code, std::string message, std::string hint = {}) {
  Error error{.code = std::move(code), .message = std::move(message), .hint = std::move(hint)};
  error.where.file = path;
  return fail(std::move(error));
}

std::unexpected<Error> not_written(const std::string& out, const char* why) {
  return at(out, "not_writable", std::string("the zip file cannot be written: ") + why,
            "does the folder exist, is it yours, is there room?");
}

Archive opened(const std::string& path, int flags) {
  int code = 0;
  return Archive(zip_open(path.c_str(), flags, &code));
}

bool add_file(zip_t* archive, const std::string& path, const std::string& name) {
  zip_source_t* const source = zip_source_file(archive, path.c_str(), 0, -1);
  if (source == nullptr) return false;
  const zip_int64_t index = zip_file_add(archive, name.c_str(), source, ZIP_FL_ENC_UTF_8);
  if (index < 0) {
    zip_source_free(source);
    return false;
  }
  const auto number = static_cast<zip_uint64_t>(index);
  return zip_set_file_compression(archive, number, ZIP_CM_DEFLATE, 6) == 0 &&
         zip_file_set_mtime(archive, number, kTime, 0) == 0 &&
         zip_file_set_external_attributes(archive, number, 0, ZIP_OPSYS_UNIX, 0100644U << 16U) == 0;
}

/// Where an entry goes; nothing where it would lie outside.
bool is_inside(const fs::path& name) {
  if (name.empty() || name.is_absolute() || name.begin() == name.end()) return false;
  return std::ranges::none_of(name, [](const fs::path& part) { return part == ".." || part == "."; });
}

Result<std::uint64_t> unpack(zip_t* archive, zip_uint64_t index, const fs::path& to, std::uint64_t room) {
  const std::unique_ptr<zip_file_t, CloseEntry> entry(zip_fopen_index(archive, index, 0));
  if (!entry) return at(to.string(), "damaged_file", "a part of the zip file cannot be unpacked");
  std::error_code error;
  fs::create_directories(to.parent_path(), error);
  std::ofstream out(to, std::ios::binary | std::ios::trunc);
  std::array<char, 1 << 16> buffer{};
  std::uint64_t bytes = 0;
  for (;;) {
    const zip_int64_t got = zip_fread(entry.get(), buffer.data(), buffer.size());
    if (got < 0) return at(to.string(), "damaged_file", "a part of the zip file cannot be unpacked");
    if (got == 0) break;
    bytes += static_cast<std::uint64_t>(got);
    if (bytes > room) return at(to.string(), "unzipped_too_large", "the zip file unpacks to more than is allowed");
    out.write(buffer.data(), static_cast<std::streamsize>(got));
  }
  out.flush();
  if (!out) return at(to.string(), "not_writable", "the file cannot be written", "is there room?");
  return bytes;
}

}  // namespace

Result<void> zip_folder(const std::string& folder, const std::vector<std::string>& names, const std::string& top,
                        const std::string& out) {
  const std::string beside = out + ".part" + std::to_string(getpid());
  Archive archive = opened(beside, ZIP_CREATE | ZIP_EXCL);
  if (!archive) return not_written(out, "it cannot be opened");
  std::vector<std::string> sorted = names;
  std::ranges::sort(sorted);
  for (const std::string& name : sorted) {
    if (!add_file(archive.get(), folder + "/" + name, top + "/" + name))
      return not_written(out, zip_strerror(archive.get()));
  }
  std::error_code error;
  if (zip_close(archive.get()) != 0) {
    const std::string why = zip_strerror(archive.get());
    archive.reset();
    fs::remove(beside, error);
    return not_written(out, why.c_str());
  }
  (void)archive.release();  // closed, and with it gone
  fs::rename(beside, out, error);
  if (!error) return {};
  const std::string why = error.message();
  fs::remove(beside, error);
  return not_written(out, why.c_str());
}

Result<std::string> unzip_folder(const std::string& file, const std::string& into, std::uint64_t most_bytes) {
  std::error_code error;
  if (!fs::exists(file, error)) return at(file, "no_file", "there is no such file");
  const Archive archive = opened(file, ZIP_RDONLY);
  if (!archive) return at(file, "damaged_file", "the file cannot be unpacked: it is no zip file, or damaged");
  const zip_int64_t entries = zip_get_num_entries(archive.get(), 0);
  if (entries < 0 || static_cast<std::uint64_t>(entries) > kMostEntries)
    return at(file, "unsafe_file", "the zip file has too many parts");
  std::string top;
  std::uint64_t room = most_bytes;
  for (zip_uint64_t index = 0; index < static_cast<zip_uint64_t>(entries); ++index) {
    const char* const raw = zip_get_name(archive.get(), index, 0);
    if (raw == nullptr) return at(file, "damaged_file", "a part of the zip file has no name");
    const fs::path name(raw);
    if (!is_inside(name)) return at(file, "unsafe_file", "a part of the zip file would lie outside its folder");
    if (std::string_view(raw).ends_with('/')) continue;
    const std::string first = name.begin()->string();
    if (top.empty()) top = first;
    if (top != first || std::next(name.begin()) == name.end())
      return at(file, "damaged_file", "this is not one folder in a zip file", "zip files of archives hold one folder");
    SHERD_TRY(const std::uint64_t bytes, unpack(archive.get(), index, fs::path(into) / name, room));
    room -= bytes;
  }
  if (top.empty()) return at(file, "damaged_file", "the zip file is empty");
  return top;
}

}  // namespace sherd::exchange
