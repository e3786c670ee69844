#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "access/alter_account.h"
#include "access/audit.h"
#include "access/sessions.h"
#include "access/throttle.h"
#include "http/account_book.h"
#include "http/handler.h"
#include "http/visitor.h"

namespace sherd::http {

/// Seconds since 1970, by the system's clock.
std::int64_t seconds_now();

struct SignInSettings {
  std::string accounts;    ///< the file
  std::string cookie;      ///< the cookie's name
  bool encrypted = false;  ///< the cookie goes over encrypted connections only
  access::SessionLimits sessions;
  access::ThrottleLimits tries;                      ///< by account
  access::ThrottleLimits address_tries{.free = 25};  ///< by address: a whole finds room may come from one
  PasswordCost cost = PasswordCost::usual;
  std::int64_t proof = 600;  ///< seconds since the own password was given, within which accounts may be altered
  access::Clock clock = seconds_now;
  access::Audit audit = {};  ///< is told of sign-ins, sign-outs, sessions that were ended, accounts that were altered
};

struct SignInRequest;
struct PasswordRequest;

/// Signing in and out at a server that has accounts:
///   GET /api/session                              who is signed in
///   POST /api/sign-in {"name", "password"}        a cookie that scripts do not see
///   POST /api/sign-out
///   POST /api/password {"old", "new"}             ends the account's other sessions
///   GET /api/sessions, DELETE /api/sessions/ID    one's own, an owner those of all
///   POST /api/proof {"password"}                  one's own, once more, before accounts are altered
/// and, for an owner alone, whose own account stays as it is:
///   GET /api/accounts
///   POST /api/accounts {"name", "recorder", "role"}         says a random password once
///   POST /api/accounts/NAME {"recorder", "role", "new_password", "end_sessions"}
///   DELETE /api/accounts/NAME
/// A wrong name and a wrong password get the same answer after the same work; tries are slowed down by account and by
/// address. Safe from several threads.
class SignIns {
 public:
  SignIns(SignInSettings settings, std::string version, desk::Files& files,
          const std::function<std::string()>& new_secret);

  /// Errors: those of the file of accounts.
  Result<void> look_at() { return book_.look_at(); }
  /// Whoever the request's cookie belongs to, where the account is still there and the session is younger than the
  /// last change of its password.
  std::optional<Visitor> who(const Request& request);
  /// Whether `who` would still find somebody, by a request that came earlier; keeps no session open.
  bool is_still_in(const Request& request);
  /// The account of the request's session; "" where there is none. Keeps no session open.
  std::string account_at(const Request& request);
  /// The answer where the request is about signing in; nothing where it is about anything else.
  std::optional<Response> answer(const Request& request);
  Response refuse_stranger() const;

 private:
  struct Asking {
    access::Account account;
    std::string secret;
  };
  std::optional<access::Account> account_of(const access::SessionState& session);
  std::optional<Asking> asking(const Request& request);
  void note(std::string_view event, std::string_view account, std::string_view by, const Request& request,
            const Response& response) const;
  Response sign_in(const Request& request);
  Response check_sign_in(const SignInRequest& asked, const Request& request);
  Response sign_out(const Request& request);
  Response change_password(const Request& request);
  Response put_password(Asking asking, const PasswordRequest& asked, const Request& request);
  std::optional<Response> check_own(const access::Account& account, const std::string& password,
                                    const Request& request);
  Response prove(const Request& request);
  Response list_sessions(const Request& request);
  Response end_session(const Request& request, std::string_view id);
  struct Owner {
    std::optional<Response> refused;
    access::Account account;
  };
  Owner owner(const Request& request, bool alters);
  Response accounts_answer(const access::Account& mine, std::string password);
  Response list_accounts(const Request& request);
  Response add_account(const Request& request);
  Response one_account(const Request& request, std::string_view name);
  Response alter_account(const Owner& owner, const access::Alteration& asked, const Request& request);
  Response altered(const Owner& owner, const access::Alteration& asked, const Request& request);
  Response wrong_method(std::string allowed) const;
  std::optional<Response> too_many_tries(const std::string& account, const std::string& peer);
  Response refuse(int status, std::string_view code, std::string message, std::string hint) const;
  Response refuse(const Error& error) const;
  std::string cookie_text(const std::string& secret, bool over) const;

  SignInSettings settings_;
  std::string version_;
  AccountBook book_;
  access::Sessions sessions_;
  access::Throttle tries_, address_tries_;
  std::mutex one_hash_;       ///< a hash takes 64 MiB: one at a time
  std::string no_ones_hash_;  ///< what a name that is not there is checked against
};

/// What GET /api/session answers where the server has no accounts.
Response session_without_accounts(const Visitor& visitor);

/// The value of a cookie in a request; nothing where it is missing.
std::optional<std::string_view> cookie_of(const Request& request, std::string_view name);

}  // namespace sherd::http
