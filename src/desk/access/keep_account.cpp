#include "desk/access/keep_account.h"

#include <chrono>

#include "access/accounts.h"
#include "base/password.h"
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

/// One second on: the sessions that began in this one are over, too.
std::int64_t from_now_on() {
  const auto now = std::chrono::system_clock::now().time_since_epoch();
  return std::chrono::duration_cast<std::chrono::seconds>(now).count() + 1;
}

/// Puts the password asked for into `account`; the one made at random is returned.
Result<std::string> give_password(const AccountRequest& request, Files& files, Account& account) {
  std::string made, password;
  if (request.password_from.empty()) {
    password = made = random_password();
  } else {
    SHERD_TRY(const std::string text, files.read(request.password_from));
    password = text.substr(0, text.find_first_of("\r\n"));
    SHERD_CHECK(access::check_password(password, account));
  }
  SHERD_TRY(account.hash, password_hash(password));
  account.must_change = !made.empty();
  account.since = from_now_on();
  return made;
}

Result<std::string> alter(const AccountRequest& request, Files& files, Accounts& accounts) {
  const Account* there = accounts.find(request.name);
  Account account = there != nullptr ? *there : Account{.name = request.name, .recorder = request.name};
  if (!request.role.empty()) {
    SHERD_TRY(account.role, access::role_named(request.role));
  }
  if (!request.recorder.empty()) account.recorder = request.recorder;
  SHERD_CHECK(accounts.put(account));  // its names are good before a hash is worked out
  std::string made;
  if (there == nullptr || request.new_password || !request.password_from.empty()) {
    SHERD_TRY(made, give_password(request, files, account));
  }
  if (request.end_sessions) account.since = from_now_on();
  SHERD_CHECK(accounts.put(std::move(account)));
  return made;
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
  std::string made;
  if (request.remove) {
    SHERD_CHECK(accounts.remove(request.name));
  } else {
    SHERD_TRY(made, alter(request, files, accounts));
  }
  SHERD_CHECK(files.write_private(request.file, accounts.text()));
  AccountsResponse response = listed(accounts, environment);
  response.password = std::move(made);
  return response;
}

}  // namespace sherd::desk
