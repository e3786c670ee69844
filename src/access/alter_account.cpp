#include "access/alter_account.h"

#include <algorithm>
#include <utility>

namespace sherd::access {

namespace {

/// Sessions that began up to now are over, also those of this second.
void end_sessions(std::int64_t now, Account& account) { account.since = std::max(account.since, now) + 1; }

/// Puts the password asked for into `account`; the one made at random is returned.
Result<std::string> give_password(const Alteration& asked, std::int64_t now, PasswordCost cost, Account& account) {
  std::string made;
  if (asked.password) {
    SHERD_CHECK(check_password(*asked.password, account));
  } else {
    made = random_password();
  }
  SHERD_TRY(account.hash, password_hash(asked.password.value_or(made), cost));
  account.must_change = !made.empty();
  end_sessions(now, account);
  return made;
}

}  // namespace

Result<std::string> alter(Accounts& accounts, const Alteration& asked, std::int64_t now, PasswordCost cost) {
  if (asked.remove) {
    SHERD_CHECK(accounts.remove(asked.name));
    return std::string();
  }
  const Account* there = accounts.find(asked.name);
  const bool is_new = there == nullptr;
  Account account = is_new ? Account{.name = asked.name, .recorder = asked.name} : *there;
  if (!asked.role.empty()) {
    SHERD_TRY(account.role, role_named(asked.role));
  }
  if (!asked.recorder.empty()) account.recorder = asked.recorder;
  SHERD_CHECK(accounts.put(account));  // its names are good before a hash is worked out
  std::string made;
  if (is_new || asked.new_password || asked.password) {
    SHERD_TRY(made, give_password(asked, now, cost, account));
  }
  if (asked.end_sessions) end_sessions(now, account);
  SHERD_CHECK(accounts.put(std::move(account)));
  return made;
}

}  // namespace sherd::access
