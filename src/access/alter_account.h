#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "access/accounts.h"
#include "base/password.h"

namespace sherd::access {

/// What is asked of one account; it is made where it is not there.
struct Alteration {
  std::string name;
  std::string role, recorder;           ///< "": as they are; of a new one reader, and its name
  std::optional<std::string> password;  ///< the one to have from now on
  bool new_password = false;            ///< one at random, to be changed at the first sign-in
  bool end_sessions = false;
  bool remove = false;
};

/// Does it. A new one gets a password at random unless one is given. What ends sessions ends those that began up to
/// `now`, in seconds since 1970. The password made at random, which is kept nowhere; "" for none. Errors: those of
/// `Accounts::put` and `remove`, `unknown_role`, those of `check_password`.
Result<std::string> alter(Accounts& accounts, const Alteration& asked, std::int64_t now,
                          PasswordCost cost = PasswordCost::usual);

}  // namespace sherd::access
