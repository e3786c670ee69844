#include "desk/access/keep_account.h"

#include <chrono>

#include "access/alter_account.h"
#include "base/text.h"

namespace sherd::desk {

namespace {

using access::Account;
using access::Accounts;

AccountsResponse listed(const Accounts& accounts, const Environment& environment) {
  AccountsResponse response;
  response.provenance.version = environment.version;
  for (const Account& one : accounts.all())
    response.accounts.push_back({one.name, one.recorder, std::string(access::name_of(one.role)), one.must_change});
  return response;
}

Result<Accounts> accounts_of(const std::string& file, Files& files, bool may_be_new) {
  if (may_be_new && !files.exists(file)) return Accounts{};
  SHERD_TRY(const std::string text, files.read(file));
  return Accounts::read(text);
}

std::int64_t seconds_now() {
  const auto now = std::chrono::system_clock::now().time_since_epoch();
  return std::chrono::duration_cast<std::chrono::seconds>(now).count();
}

}  // namespace

Result<AccountsResponse> list_accounts(const AccountsRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const Accounts accounts, accounts_of(request.file, *environment.files, false));
  return listed(accounts, environment);
}

Result<AccountsResponse> keep_account(const AccountRequest& request, Environment& environment, Progress&) {
  Files& files = *environment.files;
  if (request.new_password && !request.password_from.empty())
    return fail(ErrorKind::usage, "two_passwords", "a password is made at random or taken from a file, not both",
                "leave out --new-password or --password-from");
  SHERD_TRY(Accounts accounts, accounts_of(request.file, files, !request.remove));
  access::Alteration asked{.name = request.name, .role = request.role, .recorder = request.recorder};
  asked.new_password = request.new_password;
  asked.end_sessions = request.end_sessions;
  asked.remove = request.remove;
  if (!request.password_from.empty()) {
    SHERD_TRY(const std::string text, files.read(request.password_from));
    asked.password = text.substr(0, text.find_first_of("\r\n"));
  }
  SHERD_TRY(std::string made, access::alter(accounts, asked, seconds_now()));
  SHERD_CHECK(files.write_private(request.file, accounts.text()));
  AccountsResponse response = listed(accounts, environment);
  response.password = std::move(made);
  return response;
}

}  // namespace sherd::desk
