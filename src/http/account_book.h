#pragma once

#include <cstdint>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "access/accounts.h"
#include "access/sessions.h"
#include "base/result.h"
#include "desk/frame/environment.h"

namespace sherd::http {

/// The file of accounts as it stands now: read again when it was last read a second ago or more, so that what the
/// command `account` changes holds for a server that runs. Safe from several threads.
class AccountBook {
 public:
  AccountBook(std::string file, desk::Files& files, access::Clock clock)
      : file_(std::move(file)), files_(files), clock_(std::move(clock)) {}

  /// Nothing where there is no such account. Errors: those of the file, `bad_accounts`.
  Result<std::optional<access::Account>> find(const std::string& name);
  /// Writes `account` in the place of the one of its name. Errors: those of the file.
  Result<void> put(access::Account account);
  /// In the order of the file.
  Result<std::vector<access::Account>> all();
  /// What `alter` makes of the list as the file has it now is written; what it returns is passed on. Errors: those of
  /// the file and of `alter`, after which all is as it was.
  Result<std::string> change(const std::function<Result<std::string>(access::Accounts&)>& alter);
  /// Error: those of the file, `no_accounts` where the list is empty.
  Result<void> look_at();

 private:
  Result<void> read(bool now);

  std::string file_;
  desk::Files& files_;
  access::Clock clock_;
  std::mutex mutex_;
  access::Accounts accounts_;
  std::optional<std::int64_t> read_at_;
};

}  // namespace sherd::http
