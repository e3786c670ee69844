#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>

#include "desk/frame/environment.h"

namespace sherd::desk {

/// Files in memory, for tests. Like the disk: a file needs its folder, and a folder is no file.
class MemoryFiles final : public Files {
 public:
  Result<std::string> read(const std::string& path) override {
    if (const auto found = files_.find(path); found != files_.end()) return found->second;
    return folders_.contains(path) ? at(path, "not_readable", "this is a folder, not a file")
                                   : at(path, "no_file", "there is no such file");
  }
  Result<void> write(const std::string& path, std::string_view bytes) override {
    const std::size_t slash = path.rfind('/');
    const bool has_folder = slash == std::string::npos || folders_.contains(path.substr(0, slash));
    if (!has_folder || folders_.contains(path)) return at(path, "not_writable", "the file cannot be written");
    files_[path] = bytes;
    return {};
  }
  Result<void> write_private(const std::string& path, std::string_view bytes) override { return write(path, bytes); }
  bool exists(const std::string& path) override { return files_.contains(path) || folders_.contains(path); }
  Result<void> make_folder(const std::string& path) override {
    for (std::size_t slash = path.find('/'); slash != std::string::npos; slash = path.find('/', slash + 1))
      folders_.insert(path.substr(0, slash));
    folders_.insert(path);
    return {};
  }
  Result<void> remove(const std::string& path) override {
    files_.erase(path);
    return {};
  }

  const std::map<std::string, std::string>& all() const { return files_; }

 private:
  static std::unexpected<Error> at(const std::string& path, std::string code, std::string message) {
    Error error{.code = std::move(code), .message = std::move(message)};
    error.where.file = path;
    return fail(std::move(error));
  }

  std::map<std::string, std::string> files_;
  std::set<std::string> folders_;
};

}  // namespace sherd::desk
