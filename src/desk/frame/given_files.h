#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "desk/frame/environment.h"

namespace sherd::desk {

/// Files that came with a request, by their names: to be read, and nothing else.
class GivenFiles final : public Files {
 public:
  explicit GivenFiles(std::map<std::string, std::string> files) : files_(std::move(files)) {}

  Result<std::string> read(const std::string& path) override {
    if (const auto found = files_.find(path); found != files_.end()) return found->second;
    return refused(path);
  }
  bool exists(const std::string& path) override { return files_.contains(path); }
  bool is_folder(const std::string&) override { return false; }
  Result<std::vector<std::string>> list(const std::string& folder) override { return refused(folder); }
  Result<void> write(const std::string& path, std::string_view) override { return refused(path); }
  Result<void> write_private(const std::string& path, std::string_view) override { return refused(path); }
  Result<void> make_folder(const std::string& path) override { return refused(path); }
  Result<void> remove(const std::string& path) override { return refused(path); }
  Result<void> move(const std::string& from, const std::string&) override { return refused(from); }
  Result<void> remove_folder(const std::string& folder) override { return refused(folder); }

 private:
  static std::unexpected<Error> refused(const std::string& path) {
    Error error{.code = "no_file", .message = "this file did not come with the request"};
    error.where.file = path;
    return fail(std::move(error));
  }

  std::map<std::string, std::string> files_;
};

}  // namespace sherd::desk
