#pragma once

#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

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
    if (--writes_left_ == 0) return at(path, "not_writable", "the file cannot be written");
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
  bool is_folder(const std::string& path) override { return folders_.contains(path); }
  Result<std::vector<std::string>> list(const std::string& folder) override {
    if (!folders_.contains(folder)) return at(folder, "no_file", "there is no such folder");
    std::vector<std::string> found;
    for (const auto& [path, bytes] : files_) {
      if (path.starts_with(folder + "/")) found.push_back(path.substr(folder.size() + 1));
    }
    return found;
  }
  Result<void> move(const std::string& from, const std::string& to) override {
    if (--writes_left_ == 0) return at(to, "not_writable", "it cannot be put in place: no room");
    std::map<std::string, std::string> files;
    for (auto& [path, bytes] : files_) files[renamed(path, from, to)] = std::move(bytes);
    std::set<std::string> folders;
    for (const std::string& folder : folders_) folders.insert(renamed(folder, from, to));
    files_ = std::move(files);
    folders_ = std::move(folders);
    return {};
  }
  Result<void> remove_folder(const std::string& folder) override {
    const auto inside = [&](const std::string& path) { return path == folder || path.starts_with(folder + "/"); };
    std::erase_if(files_, [&](const auto& file) { return inside(file.first); });
    std::erase_if(folders_, inside);
    return {};
  }

  /// The n-th writing or moving from now on fails, with n from 1.
  void fail_at(std::int64_t n) { writes_left_ = n; }
  bool failed() const { return writes_left_ <= 0; }

  const std::map<std::string, std::string>& all() const { return files_; }

 private:
  static std::unexpected<Error> at(const std::string& path, std::string code, std::string message) {
    Error error{.code = std::move(code), .message = std::move(message)};
    error.where.file = path;
    return fail(std::move(error));
  }

  static std::string renamed(const std::string& path, const std::string& from, const std::string& to) {
    return path == from || path.starts_with(from + "/") ? to + path.substr(from.size()) : path;
  }

  std::int64_t writes_left_ = INT64_MAX;
  std::map<std::string, std::string> files_;
  std::set<std::string> folders_;
};

}  // namespace sherd::desk
