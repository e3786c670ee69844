#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "access/accounts.h"
#include "base/fields.h"
#include "base/text.h"
#include "desk/frame/json.h"
#include "desk/frame/json_read.h"
#include "desk/frame/reply.h"
#include "http/handler.h"

/// What is asked and answered about signing in; of `SignIns` alone.
namespace sherd::http {

struct SignInRequest {
  std::string name, password;

  template <class V>
  static void fields(V& v) {
    v.field("name", &SignInRequest::name, required_option("the account"));
    v.field("password", &SignInRequest::password, required_option("its password"));
  }
};

struct PasswordRequest {
  std::string old, fresh;

  template <class V>
  static void fields(V& v) {
    v.field("old", &PasswordRequest::old, required_option("the password so far"));
    v.field("new", &PasswordRequest::fresh, required_option("the one from now on"));
  }
};

struct SessionResponse : desk::Reply {
  std::string account, recorder, role;
  bool must_change = false;

  template <class V>
  static void fields(V& v) {
    v.field("account", &SessionResponse::account);
    v.field("recorder", &SessionResponse::recorder);
    v.field("role", &SessionResponse::role);
    v.field("must_change", &SessionResponse::must_change);
  }
};

struct ListedSession {
  std::string id, account, peer;
  std::int64_t began = 0, seen = 0;
  bool this_one = false;

  template <class V>
  static void fields(V& v) {
    v.field("id", &ListedSession::id);
    v.field("account", &ListedSession::account);
    v.field("peer", &ListedSession::peer);
    v.field("began", &ListedSession::began);
    v.field("seen", &ListedSession::seen);
    v.field("this_one", &ListedSession::this_one);
  }
};

struct SessionsResponse : desk::Reply {
  std::vector<ListedSession> sessions;

  template <class V>
  static void fields(V& v) {
    v.field("sessions", &SessionsResponse::sessions);
  }
};

struct ProofRequest {
  std::string password;

  template <class V>
  static void fields(V& v) {
    v.field("password", &ProofRequest::password, required_option("one's own"));
  }
};

struct NewAccountRequest {
  std::string name, recorder, role;

  template <class V>
  static void fields(V& v) {
    v.field("name", &NewAccountRequest::name, required_option("the account"));
    v.field("recorder", &NewAccountRequest::recorder, option("as whom the history keeps its work; its name"));
    v.field("role", &NewAccountRequest::role, option("reader (unless said), recorder, editor or owner"));
  }
};

struct AlterRequest {
  std::string recorder, role;
  bool new_password = false, end_sessions = false;

  template <class V>
  static void fields(V& v) {
    v.field("recorder", &AlterRequest::recorder, option("as whom the history keeps its work from now on"));
    v.field("role", &AlterRequest::role, option("reader, recorder, editor or owner"));
    v.field("new_password", &AlterRequest::new_password, option("one at random, to be changed; ends its sessions"));
    v.field("end_sessions", &AlterRequest::end_sessions, option("signs it out everywhere"));
  }
};

struct ListedAccount {
  std::string name, recorder, role;
  bool must_change = false, mine = false;
  std::int64_t sessions = 0;

  template <class V>
  static void fields(V& v) {
    v.field("name", &ListedAccount::name);
    v.field("recorder", &ListedAccount::recorder);
    v.field("role", &ListedAccount::role);
    v.field("must_change", &ListedAccount::must_change);
    v.field("mine", &ListedAccount::mine);
    v.field("sessions", &ListedAccount::sessions);
  }
};

struct AccountsAnswer : desk::Reply {
  std::vector<ListedAccount> accounts;
  std::string password;  ///< made at random; said this once and kept nowhere

  template <class V>
  static void fields(V& v) {
    v.field("accounts", &AccountsAnswer::accounts);
    v.field("password", &AccountsAnswer::password);
  }
};

inline SessionResponse session_of(const access::Account& account) {
  SessionResponse response;
  response.account = account.name;
  response.recorder = account.recorder;
  response.role = access::name_of(account.role);
  response.must_change = account.must_change;
  return response;
}

inline bool is_json(const Request& request) {
  return lower(request.header("Content-Type").value_or("")).starts_with("application/json");
}

template <class Asked>
Result<Asked> body_of(const Request& request) {
  if (!is_json(request))
    return fail(ErrorKind::usage, "bad_request", "the body should be JSON", "say Content-Type: application/json");
  SHERD_TRY(const desk::Given given, desk::Given::json(request.body));
  return desk::read_request<Asked>(given);
}

}  // namespace sherd::http
