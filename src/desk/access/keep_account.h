#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct AccountsRequest {
  std::string file;

  template <class V>
  static void fields(V& v) {
    v.field("file", &AccountsRequest::file, argument("the file of accounts"));
  }
};

struct AccountRequest {
  std::string file, name, role, recorder, password_from;
  bool new_password = false, end_sessions = false, remove = false;

  template <class V>
  static void fields(V& v) {
    v.field("file", &AccountRequest::file, argument("the file of accounts; it is made where it is not there"));
    v.field("name", &AccountRequest::name, argument("the account"));
    v.field("role", &AccountRequest::role, option("reader, recorder, editor or owner (a new account: reader)"));
    v.field("recorder", &AccountRequest::recorder,
            option("as whom the history keeps its work, such as initials (a new account: its name)"));
    v.field("new_password", &AccountRequest::new_password,
            option("gives it a password at random, to be changed at the first sign-in; ends its sessions"));
    v.field("password_from", &AccountRequest::password_from,
            option("takes its password from the first line of a file, such as /dev/stdin; ends its sessions"));
    v.field("end_sessions", &AccountRequest::end_sessions, option("signs it out everywhere"));
    v.field("remove", &AccountRequest::remove, option("takes the account away; its work stays in the history"));
  }
};

struct AccountRow {
  std::string name, recorder, role;
  bool must_change = false;

  template <class V>
  static void fields(V& v) {
    v.field("name", &AccountRow::name);
    v.field("recorder", &AccountRow::recorder);
    v.field("role", &AccountRow::role);
    v.field("must_change", &AccountRow::must_change);
  }
};

struct AccountsResponse : Reply {
  std::vector<AccountRow> accounts;
  std::string password;  ///< made at random; said this once and kept nowhere

  template <class V>
  static void fields(V& v) {
    v.field("accounts", &AccountsResponse::accounts);
    v.field("password", &AccountsResponse::password);
  }
};

/// Who may sign in at a server that runs with this file (`serve --accounts`). Errors: those of the file,
/// `bad_accounts`.
Result<AccountsResponse> list_accounts(const AccountsRequest& request, Environment& environment, Progress& progress);

/// Makes an account, alters it or takes it away; a server that runs knows within a second. A new one gets a password
/// at random unless one is given. Errors: those of `list_accounts`, `bad_name`, `bad_recorder`, `recorder_taken`,
/// `unknown_role`, `no_account`, `password_short`, `password_long`, `password_plain`, `two_passwords`.
Result<AccountsResponse> keep_account(const AccountRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
