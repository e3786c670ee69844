#include "http/guard.h"

#include <charconv>

#include "base/text.h"
#include "http/status.h"

namespace sherd::http {

namespace {

constexpr std::string_view kPolicy =
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "font-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'";

/// Takes as long whatever the first difference is.
bool is_same_secret(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  unsigned difference = 0;
  for (std::size_t i = 0; i < a.size(); ++i) difference |= static_cast<unsigned>(a[i] ^ b[i]);
  return difference == 0;
}

/// The value of `token` in a query; hexadecimal digits need no decoding.
std::optional<std::string_view> token_in(std::string_view query) {
  for (const std::string_view part : split(query, '&')) {
    if (part.starts_with("token=")) return part.substr(6);
  }
  return std::nullopt;
}

bool says_too_long(std::string_view length, std::uint64_t most) {
  std::uint64_t bytes = 0;
  const auto [end, error] = std::from_chars(length.data(), length.data() + length.size(), bytes);
  return error != std::errc{} || end != length.data() + length.size() || bytes > most;
}

}  // namespace

Guard::Guard(GuardSettings settings, std::string version, const std::function<std::string()>& new_secret,
             Visitor without_accounts, SignIns* sign_ins)
    : settings_(std::move(settings)),
      version_(std::move(version)),
      token_(new_secret()),
      session_(new_secret()),
      cookie_name_(cookie_name(settings_.port, settings_.encrypted)),
      without_accounts_(std::move(without_accounts)),
      sign_ins_(sign_ins) {}

std::string cookie_name(std::uint16_t port, bool encrypted) {
  return (encrypted ? "__Host-sherdwright_" : "sherdwright_") + std::to_string(port);
}

Response Guard::refuse(int status, std::string_view code, std::string message, std::string hint) const {
  return error_response(status,
                        {.kind = ErrorKind::usage,
                         .code = std::string(code),
                         .message = std::move(message),
                         .where = {},
                         .hint = std::move(hint)},
                        version_);
}

bool Guard::is_our_address(std::string_view host, std::string_view local) const {
  const std::string port = ":" + std::to_string(settings_.port);
  const std::string given = lower(host);
  const auto is = [&](const std::string& name) {
    return given == name + port || (settings_.port == (settings_.encrypted ? 443 : 80) && given == name);
  };
  if (is("127.0.0.1") || is("localhost") || is("[::1]")) return true;
  if (settings_.loopback_only || local.empty()) return false;
  return is(local.find(':') == std::string_view::npos ? std::string(local) : "[" + std::string(local) + "]");
}

bool Guard::is_our_host(std::string_view host, std::string_view local) const {
  const std::string& origin = settings_.origin;
  const bool is_proxys = !origin.empty() && lower(host) == lower(origin.substr(origin.find("//") + 2));
  return is_proxys || is_our_address(host, local);
}

bool Guard::is_our_origin(const Request& request) const {
  if (request.count("Origin") > 1) return false;
  if (const auto origin = request.header("Origin")) {
    if (!settings_.origin.empty() && lower(*origin) == lower(settings_.origin)) return true;
    const std::string_view scheme = settings_.encrypted ? "https://" : "http://";
    return origin->starts_with(scheme) && is_our_address(origin->substr(scheme.size()), request.local);
  }
  // Without an Origin (a plain GET) the browser may still say where the request comes from.
  const auto site = request.header("Sec-Fetch-Site");
  return !site || !request.path().starts_with("/api/") || *site == "same-origin" || *site == "none";
}

bool Guard::has_session(const Request& request) const {
  const auto cookie = cookie_of(request, cookie_name_);
  return cookie && is_same_secret(*cookie, session_);
}

std::optional<Response> Guard::check_token(const Request& request) {
  const auto given = token_in(request.query());
  if (!given || request.path() != "/" || request.method != "GET") return std::nullopt;
  Response onward = text_response(303, {});
  onward.headers.emplace_back("Location", "/");
  if (has_session(request)) return onward;
  if (!is_same_secret(*given, token_) || token_used_.exchange(true)) {
    return refuse(401, "no_session", "this address has been used already, or is not the one that was printed",
                  "it opens one browser only; stop the program and start it again for a new one");
  }
  onward.headers.emplace_back("Set-Cookie", cookie_name_ + "=" + session_ + "; HttpOnly; SameSite=Strict; Path=/" +
                                                (settings_.encrypted ? "; Secure" : ""));
  if (settings_.audit) settings_.audit({.event = "sign-in", .outcome = "succeeded", .address = request.peer});
  return onward;
}

std::optional<Response> Guard::check_outside(const Request& request) const {
  if (request.count("Host") != 1 || !is_our_host(*request.header("Host"), request.local)) {
    return refuse(421, "strange_host", "this server does not answer under that name",
                  "open the address that the program printed");
  }
  if (!is_our_origin(request))
    return refuse(403, "strange_origin", "a page of another origin may not ask here", "open the workbench's own page");
  const std::uint64_t most = holds_file(request.path()) ? settings_.file_bytes : settings_.body_bytes;
  if (const auto length = request.header("Content-Length"); length && says_too_long(*length, most))
    return refuse(413, "too_large", "the request's body is too large",
                  "at most " + grouped(static_cast<long long>(most)) + " bytes are read");
  return std::nullopt;
}

Guard::Admission Guard::admit_account(const Request& request) {
  const std::string_view path = request.path();
  if (path != "/api" && !path.starts_with("/api/")) return {};
  if (auto answer = sign_ins_->answer(request)) return {std::move(answer), {}};
  auto visitor = sign_ins_->who(request);
  if (!visitor) return {sign_ins_->refuse_stranger(), {}};
  if (visitor->must_change)
    return {refuse(403, "change_password", "the password was given by somebody else", "choose one of your own first"),
            {}};
  return {std::nullopt, std::move(*visitor)};
}

Guard::Admission Guard::admit(const Request& request) {
  if (auto refused = check_outside(request)) return {std::move(refused), {}};
  if (sign_ins_ != nullptr) return admit_account(request);
  if (auto answer = check_token(request)) return {std::move(answer), {}};
  if (!has_session(request)) {
    return {refuse(401, "no_session", "this browser has no session here",
                   "open the address that the program printed when it started, with its token"),
            {}};
  }
  if (request.path() == "/api/session" && request.method == "GET")
    return {session_without_accounts(without_accounts_), {}};
  return {std::nullopt, without_accounts_};
}

void add_security_headers(Response& response, bool encrypted) {
  if (encrypted) response.headers.emplace_back("Strict-Transport-Security", "max-age=15724800");
  response.headers.emplace_back("Content-Security-Policy", kPolicy);
  response.headers.emplace_back("X-Content-Type-Options", "nosniff");
  response.headers.emplace_back("Referrer-Policy", "no-referrer");
  response.headers.emplace_back("Cross-Origin-Resource-Policy", "same-origin");
  response.headers.emplace_back("Cross-Origin-Opener-Policy", "same-origin");
  if (!response.header("Cache-Control")) response.headers.emplace_back("Cache-Control", "no-store");
}

bool Gate::enter() {
  if (inside_.fetch_add(1) < most_) return true;
  inside_.fetch_sub(1);
  return false;
}

void Gate::leave() { inside_.fetch_sub(1); }

}  // namespace sherd::http
