#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/password.h"
#include "base/result.h"

/// Who may do what at a workbench that a team shares. The list of accounts belongs to the server and lies in a file of
/// its own: no password comes into a store, which is copied, handed on and archived.
namespace sherd::access {

/// Each may do what those before it may. The names are kept in files: do not change them.
enum class Role {
  reader,    ///< sees everything
  recorder,  ///< writes lines and what hangs on them, and takes back own changes
  editor,    ///< writes every table, imports, merges, settles conflicts
  owner,     ///< ends the sessions of others
};

std::string_view name_of(Role role);
/// Error `unknown_role`.
Result<Role> role_named(std::string_view name);

struct Account {
  std::string name;      ///< how one signs in; letters' case aside
  std::string recorder;  ///< as whom the history keeps what is written, such as initials
  Role role = Role::reader;
  std::string hash;          ///< of the password
  std::int64_t since = 0;    ///< seconds since 1970: sessions that began before this are over
  bool must_change = false;  ///< the password was given by somebody else

  friend bool operator==(const Account&, const Account&) = default;
};

/// The accounts of one server, each name once.
class Accounts {
 public:
  /// A table with the columns name, recorder, role, since, must_change, password. Error `bad_accounts` with its row.
  static Result<Accounts> read(std::string_view text);
  std::string text() const;

  const std::vector<Account>& all() const { return accounts_; }
  const Account* find(std::string_view name) const;

  /// Adds it, or puts it in the place of the one of that name. Errors `bad_name`, `bad_recorder`, and `recorder_taken`
  /// where two would write under one name.
  Result<void> put(Account account);
  /// Error `no_account`.
  Result<void> remove(std::string_view name);

 private:
  std::vector<Account> accounts_;
};

constexpr std::size_t kLeastPassword = 12, kMostPassword = 128;  ///< characters

/// Errors `password_short`, `password_long`, `password_plain` (one character over and over, a run of neighbours, or
/// the name of the account or of the program in it), `password_common` (see `is_common`). No rule on kinds of
/// characters (NIST SP 800-63B section 5.1.1.2).
Result<void> check_password(std::string_view password, const Account& account);

}  // namespace sherd::access
