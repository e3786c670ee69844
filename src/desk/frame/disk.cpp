#include "desk/frame/disk.h"

#include <fcntl.h>
#include <fmt/chrono.h>
#include <fmt/format.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>

namespace sherd::desk {

namespace fs = std::filesystem;

namespace {

constexpr std::uintmax_t kLargestFile = std::uintmax_t{1} << 30;  // 1 GiB

std::unexpected<Error> at(const std::string& path, std::string code, std::string message, std::string hint = {}) {
  Error error{.code = std::move(code), .message = std::move(message), .hint = std::move(hint)};
  error.where.file = path;
  return fail(std::move(error));
}

}  // namespace

Result<std::string> DiskFiles::read(const std::string& path) {
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (!fs::exists(status)) return at(path, "no_file", "there is no such file");
  if (fs::is_directory(status)) return at(path, "not_readable", "this is a folder, not a file");
  std::ifstream in(path, std::ios::binary);
  if (!in) return at(path, "not_readable", "the file cannot be read", "have you the right to?");
  const std::uintmax_t size = fs::is_regular_file(status) ? fs::file_size(path, error) : 0;
  if (size > kLargestFile) return at(path, "file_too_large", "the file is larger than 1 GiB", "split it");
  std::string bytes;
  bytes.reserve(size);
  bytes.assign(std::istreambuf_iterator<char>(in), {});
  if (in.bad()) return at(path, "not_readable", "the file cannot be read to its end");
  return bytes;
}

namespace {

Result<void> put_in_place(const std::string& beside, const std::string& path) {
  std::error_code error;
  fs::rename(beside, path, error);
  if (!error) return {};
  std::error_code ignored;
  fs::remove(beside, ignored);
  return at(path, "not_writable", "the file cannot be put in place: " + error.message());
}

std::unexpected<Error> not_written(const std::string& beside, const std::string& path) {
  std::error_code ignored;
  fs::remove(beside, ignored);
  return at(path, "not_writable", "the file cannot be written", "does the folder exist, is it yours, is there room?");
}

std::string beside_of(const std::string& path) { return path + ".part" + std::to_string(getpid()); }

}  // namespace

Result<void> DiskFiles::write(const std::string& path, std::string_view bytes) {
  const std::string beside = beside_of(path);
  {
    std::ofstream out(beside, std::ios::binary | std::ios::trunc);
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    out.flush();
    if (!out) return not_written(beside, path);
  }
  return put_in_place(beside, path);
}

Result<void> DiskFiles::write_private(const std::string& path, std::string_view bytes) {
  const std::string beside = beside_of(path);
  std::error_code error;
  fs::remove(beside, error);
  const int file = open(beside.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, S_IRUSR | S_IWUSR);
  if (file < 0) return not_written(beside, path);
  bool good = true;
  for (std::string_view rest = bytes; good && !rest.empty();) {
    const ssize_t written = ::write(file, rest.data(), rest.size());
    good = written > 0 || (written < 0 && errno == EINTR);
    if (written > 0) rest.remove_prefix(static_cast<std::size_t>(written));
  }
  good = fsync(file) == 0 && good;
  good = close(file) == 0 && good;
  return good ? put_in_place(beside, path) : Result<void>(not_written(beside, path));
}

bool DiskFiles::exists(const std::string& path) {
  std::error_code error;
  return fs::exists(path, error);
}

Result<void> DiskFiles::make_folder(const std::string& path) {
  std::error_code error;
  fs::create_directories(path, error);
  if (error) return at(path, "not_writable", "the folder cannot be made: " + error.message());
  return {};
}

Result<void> DiskFiles::remove(const std::string& path) {
  std::error_code error;
  fs::remove(path, error);
  if (error) return at(path, "not_writable", "the file cannot be removed: " + error.message());
  return {};
}

bool DiskFiles::is_folder(const std::string& path) {
  std::error_code error;
  return fs::is_directory(path, error);
}

Result<std::vector<std::string>> DiskFiles::list(const std::string& folder) {
  std::error_code error;
  if (!fs::exists(folder, error)) return at(folder, "no_file", "there is no such folder");
  if (!fs::is_directory(folder, error)) return at(folder, "not_readable", "this is a file, not a folder");
  std::vector<std::string> found;
  fs::recursive_directory_iterator each(folder, error);
  for (; !error && each != fs::recursive_directory_iterator(); each.increment(error)) {
    std::error_code unreadable;
    if (each->is_directory(unreadable) && !each->is_symlink(unreadable)) continue;
    found.push_back(each->path().lexically_relative(folder).generic_string());
  }
  if (error) return at(folder, "not_readable", "the folder cannot be read: " + error.message());
  std::ranges::sort(found);
  return found;
}

Result<void> DiskFiles::move(const std::string& from, const std::string& to) {
  std::error_code error;
  fs::rename(from, to, error);
  if (error) return at(to, "not_writable", "it cannot be put in place: " + error.message());
  return {};
}

Result<void> DiskFiles::remove_folder(const std::string& folder) {
  std::error_code error;
  fs::remove_all(folder, error);
  if (error) return at(folder, "not_writable", "the folder cannot be removed: " + error.message());
  return {};
}

std::string user_name() {
  for (const char* variable : {"SHERDWRIGHT_USER", "USER", "LOGNAME"}) {
    const char* value = std::getenv(variable);
    if (value != nullptr && *value != '\0') return value;
  }
  return "unknown";
}

namespace {

std::string of_environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr || *value != '/' ? std::string{} : std::string(value);
}

}  // namespace

std::string home_folder() { return of_environment("HOME"); }

std::string state_folder() {
  const std::string state = of_environment("XDG_STATE_HOME");
  if (!state.empty()) return state + "/sherdwright";
  const std::string home = home_folder();
  return home.empty() ? home : home + "/.local/state/sherdwright";
}

std::string utc_now() {
  const auto now = std::chrono::time_point_cast<std::chrono::seconds>(std::chrono::system_clock::now());
  return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", now);
}

std::string random_uid() {
  std::array<unsigned char, 16> bytes{};
  if (getentropy(bytes.data(), bytes.size()) != 0) std::abort();
  std::string uid;
  for (const unsigned char byte : bytes) uid += fmt::format("{:02x}", byte);
  return uid;
}

}  // namespace sherd::desk
