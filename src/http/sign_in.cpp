#include "http/sign_in.h"

#include <algorithm>

#include "base/text.h"
#include "http/sign_in_shapes.h"
#include "http/status.h"

namespace sherd::http {

std::optional<std::string_view> cookie_of(const Request& request, std::string_view name) {
  for (const auto& [header, value] : request.headers) {
    if (lower(header) != "cookie") continue;
    for (const std::string_view part : split(value, ';')) {
      const std::string_view cookie = trim(part);
      if (cookie.starts_with(name) && cookie.substr(name.size()).starts_with("="))
        return cookie.substr(name.size() + 1);
    }
  }
  return std::nullopt;
}

std::int64_t seconds_now() {
  return std::chrono::duration_cast<std::chrono::seconds>(std::chrono::system_clock::now().time_since_epoch()).count();
}

SignIns::SignIns(SignInSettings settings, std::string version, desk::Files& files,
                 const std::function<std::string()>& new_secret)
    : settings_(std::move(settings)),
      version_(std::move(version)),
      book_(settings_.accounts, files, settings_.clock),
      sessions_(settings_.sessions, settings_.clock, new_secret),
      tries_(settings_.tries, settings_.clock),
      address_tries_(settings_.address_tries, settings_.clock),
      no_ones_hash_(password_hash(random_password(), settings_.cost).value_or("")) {}

Response SignIns::refuse(const Error& error) const { return error_response(status_of(error), error, version_); }

Response SignIns::refuse(int status, std::string_view code, std::string message, std::string hint) const {
  return error_response(status,
                        {.kind = ErrorKind::usage,
                         .code = std::string(code),
                         .message = std::move(message),
                         .where = {},
                         .hint = std::move(hint)},
                        version_);
}

Response SignIns::refuse_stranger() const {
  return refuse(401, "not_signed_in", "nobody is signed in here", "sign in with your account");
}

std::string SignIns::cookie_text(const std::string& secret, bool over) const {
  return settings_.cookie + "=" + secret + "; HttpOnly; SameSite=Strict; Path=/" +
         (settings_.encrypted ? "; Secure" : "") + (over ? "; Max-Age=0" : "");
}

std::optional<access::Account> SignIns::account_of(const access::SessionState& session) {
  auto account = book_.find(session.account);
  if (!account || !*account || session.began < (*account)->since) return std::nullopt;
  return std::move(*account);
}

std::optional<SignIns::Asking> SignIns::asking(const Request& request) {
  const auto secret = cookie_of(request, settings_.cookie);
  const auto session = secret ? sessions_.find(*secret) : std::nullopt;
  if (!session) return std::nullopt;
  auto account = account_of(*session);
  if (account) return Asking{std::move(*account), std::string(*secret)};
  sessions_.end(*secret);
  return std::nullopt;
}

std::string SignIns::account_at(const Request& request) {
  const auto secret = cookie_of(request, settings_.cookie);
  const auto session = secret ? sessions_.peek(*secret) : std::nullopt;
  const auto account = session ? account_of(*session) : std::nullopt;
  return account ? account->name : std::string();
}

bool SignIns::is_still_in(const Request& request) { return !account_at(request).empty(); }

void SignIns::note(std::string_view event, std::string_view account, std::string_view by, const Request& request,
                   const Response& response) const {
  if (!settings_.audit) return;
  const std::string_view otherwise = response.status == 429 ? "throttled" : "refused";
  settings_.audit({.event = event,
                   .outcome = response.error.empty() ? "succeeded" : otherwise,
                   .account = account,
                   .by = by,
                   .address = request.peer,
                   .reason = response.error});
}

std::optional<Visitor> SignIns::who(const Request& request) {
  const auto asking = this->asking(request);
  if (!asking) return std::nullopt;
  return Visitor{asking->account.name, asking->account.recorder, asking->account.role, asking->account.must_change};
}

std::optional<Response> SignIns::too_many_tries(const std::string& account, const std::string& peer) {
  const std::int64_t wait = std::max(tries_.wait(account), address_tries_.wait(peer));
  if (wait == 0) return std::nullopt;
  Response response = refuse(429, "too_many_tries", "too many wrong passwords",
                             "try again in " + counted(wait, "second") + "; an owner can give a new password");
  response.headers.emplace_back("Retry-After", std::to_string(wait));
  return response;
}

Response session_without_accounts(const Visitor& visitor) {
  SessionResponse response;
  response.recorder = visitor.recorder;
  response.role = access::name_of(visitor.role);
  return json_response(200, desk::envelope(response));
}

Response SignIns::sign_in(const Request& request) {
  const auto asked = body_of<SignInRequest>(request);
  Response response = asked ? check_sign_in(*asked, request) : refuse(asked.error());
  note("sign-in", asked ? asked->name : std::string(), {}, request, response);
  return response;
}

Response SignIns::check_sign_in(const SignInRequest& asked, const Request& request) {
  const std::string name = lower(asked.name);
  if (auto refused = too_many_tries(name, request.peer)) return std::move(*refused);
  const auto account = book_.find(name);
  if (!account) return refuse(account.error());
  const bool right = [&] {
    const std::scoped_lock lock(one_hash_);
    return is_password(asked.password, *account ? (*account)->hash : no_ones_hash_) && account->has_value();
  }();
  if (!right) {
    tries_.failed(name);
    address_tries_.failed(request.peer);
    return refuse(401, "wrong_password", "that name and password do not belong together",
                  "look at the keyboard's layout and capitals; an owner can give a new password");
  }
  tries_.succeeded(name);
  if (const auto before = cookie_of(request, settings_.cookie)) sessions_.end(*before);
  Response response = json_response(200, desk::envelope(session_of(**account)));
  // Signed in with the newest password, also where that is of this very second.
  const std::string secret = sessions_.begin((*account)->name, request.peer, (*account)->since);
  response.headers.emplace_back("Set-Cookie", cookie_text(secret, false));
  return response;
}

Response SignIns::sign_out(const Request& request) {
  if (!is_json(request))
    return refuse(415, "bad_request", "the body should be JSON", "say Content-Type: application/json");
  const std::string account = account_at(request);
  if (const auto secret = cookie_of(request, settings_.cookie)) sessions_.end(*secret);
  Response response = json_response(200, desk::envelope(SessionResponse{}));
  response.headers.emplace_back("Set-Cookie", cookie_text("", true));
  if (!account.empty()) note("sign-out", account, {}, request, response);
  return response;
}

/// Whether the password is the account's own; a wrong one counts as a try. Nothing where it is right.
std::optional<Response> SignIns::check_own(const access::Account& account, const std::string& password,
                                           const Request& request) {
  const std::string name = lower(account.name);
  if (auto refused = too_many_tries(name, request.peer)) return refused;
  const bool right = [&] {
    const std::scoped_lock lock(one_hash_);
    return is_password(password, account.hash);
  }();
  if (right) return std::nullopt;
  tries_.failed(name);
  return refuse(401, "wrong_password", "the password so far is another", "type it again");
}

Response SignIns::prove(const Request& request) {
  const auto asking = this->asking(request);
  if (!asking) return refuse_stranger();
  const auto asked = body_of<ProofRequest>(request);
  if (!asked) return refuse(asked.error());
  auto refused = check_own(asking->account, asked->password, request);
  if (!refused) sessions_.prove(asking->secret);
  Response response = refused ? std::move(*refused) : json_response(200, desk::envelope(session_of(asking->account)));
  note("proof", asking->account.name, {}, request, response);
  return response;
}

Response SignIns::change_password(const Request& request) {
  auto asking = this->asking(request);
  if (!asking) return refuse_stranger();
  const auto asked = body_of<PasswordRequest>(request);
  if (!asked) return refuse(asked.error());
  const std::string name = asking->account.name;
  Response response = put_password(std::move(*asking), *asked, request);
  note("password", name, {}, request, response);
  return response;
}

Response SignIns::put_password(Asking asking, const PasswordRequest& asked, const Request& request) {
  access::Account& account = asking.account;
  if (auto refused = check_own(account, asked.old, request)) return std::move(*refused);
  if (asked.fresh == asked.old)
    return refuse(400, "password_same", "the new password is the old one", "choose another");
  if (const auto good = access::check_password(asked.fresh, account); !good) return refuse(good.error());
  auto hash = [&] {
    const std::scoped_lock lock(one_hash_);
    return password_hash(asked.fresh, settings_.cost);
  }();
  if (!hash) return refuse(hash.error());
  account.hash = std::move(*hash);
  account.must_change = false;
  if (const auto put = book_.put(account); !put) return refuse(put.error());
  sessions_.end_of(account.name, asking.secret);
  sessions_.prove(asking.secret);
  return json_response(200, desk::envelope(session_of(account)));
}

Response SignIns::wrong_method(std::string allowed) const {
  Response response = refuse(405, "wrong_method", "this is done with " + allowed, "use " + allowed);
  response.headers.emplace_back("Allow", std::move(allowed));
  return response;
}

std::optional<Response> SignIns::answer(const Request& request) {
  constexpr std::string_view kSessions = "/api/sessions", kAccounts = "/api/accounts";
  const std::string_view path = request.path();
  const bool reads = request.method == "GET" || request.method == "HEAD";
  const auto below = [&](std::string_view folder) {
    return path.starts_with(folder) && path.substr(folder.size()).starts_with("/");
  };
  if (path == "/api/session") {
    if (!reads) return wrong_method("GET");
    const auto asking = this->asking(request);
    return asking ? json_response(200, desk::envelope(session_of(asking->account))) : refuse_stranger();
  }
  if (path == kSessions) return reads ? list_sessions(request) : wrong_method("GET");
  if (below(kSessions))
    return request.method == "DELETE" ? end_session(request, path.substr(kSessions.size() + 1))
                                      : wrong_method("DELETE");
  if (path == kAccounts) {
    if (reads) return list_accounts(request);
    return request.method == "POST" ? add_account(request) : wrong_method("GET, POST");
  }
  if (below(kAccounts)) return one_account(request, path.substr(kAccounts.size() + 1));
  using Step = Response (SignIns::*)(const Request&);
  constexpr std::array<std::pair<std::string_view, Step>, 4> kSteps{{{"/api/sign-in", &SignIns::sign_in},
                                                                     {"/api/sign-out", &SignIns::sign_out},
                                                                     {"/api/password", &SignIns::change_password},
                                                                     {"/api/proof", &SignIns::prove}}};
  for (const auto& [its, step] : kSteps) {
    if (path == its) return request.method == "POST" ? (this->*step)(request) : wrong_method("POST");
  }
  return std::nullopt;
}

}  // namespace sherd::http
