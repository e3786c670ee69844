#pragma once

#include <string>

#include "desk/frame/environment.h"

/// The outside as it really is: the disk, the clock, the user. Only main uses this.
namespace sherd::desk {

class DiskFiles final : public Files {
 public:
  Result<std::string> read(const std::string& path) override;
  Result<void> write(const std::string& path, std::string_view bytes) override;
  Result<void> write_private(const std::string& path, std::string_view bytes) override;
  bool exists(const std::string& path) override;
  Result<void> make_folder(const std::string& path) override;
  Result<void> remove(const std::string& path) override;
  bool is_folder(const std::string& path) override;
  Result<std::vector<std::string>> list(const std::string& folder) override;
  Result<void> move(const std::string& from, const std::string& to) override;
  Result<void> remove_folder(const std::string& folder) override;
};

/// From the environment: SHERDWRIGHT_USER, else the login name, else "unknown".
std::string user_name();
/// The user's folder, "" where there is none.
std::string home_folder();
/// Where the program keeps what it remembers of its use: $XDG_STATE_HOME/sherdwright, ~/.local/state/sherdwright unless
/// said (XDG Base Directory Specification 0.8: a relative path is as good as none); "" where there is neither.
std::string state_folder();
/// "2026-11-03T09:15:42Z"
std::string utc_now();
/// 128 random bits as 32 hexadecimal digits, from the operating system.
std::string random_uid();

}  // namespace sherd::desk
