#pragma once

#include <atomic>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "access/audit.h"
#include "http/handler.h"
#include "http/sign_in.h"
#include "http/visitor.h"

/// Who may ask at all: before anything is looked up.
namespace sherd::http {

struct GuardSettings {
  std::uint16_t port = 0;
  bool loopback_only = true;  ///< false: the Host may also be the address on which the connection came in
  bool encrypted = false;     ///< our own addresses begin with https
  std::string origin = {};    ///< an origin beside our addresses, "https://finds.example.org", such as a proxy's
  std::uint64_t body_bytes = 1 << 20;
  std::uint64_t file_bytes = 1 << 20;  ///< of a picture or a table
  access::Audit audit = {};            ///< is told that the token was used
};

/// Host and Origin against pages of other addresses that ask behind the user's back (also by a name that turns out to
/// be ours). Then, where the server has no accounts, the token in the address against other users of the machine: it
/// works once and becomes a cookie. Where it has them, everything under /api asks for somebody who is signed in; the
/// pages themselves hold no data.
class Guard {
 public:
  /// `new_secret` gives unguessable hexadecimal digits. `sign_ins` outlives this; none: the token opens.
  Guard(GuardSettings settings, std::string version, const std::function<std::string()>& new_secret,
        Visitor without_accounts = {}, SignIns* sign_ins = nullptr);

  const std::string& token() const { return token_; }

  struct Admission {
    std::optional<Response> answer;  ///< then nothing else is to be done
    Visitor visitor;                 ///< else who asks
  };
  /// An answer: 413 body too large, 421 strange Host, 403 strange Origin or a password to change first, 401 no session,
  /// 303 with the cookie where the token came, or that of signing in and out.
  Admission admit(const Request& request);

 private:
  Response refuse(int status, std::string_view code, std::string message, std::string hint) const;
  /// An address of this machine with our port.
  bool is_our_address(std::string_view host, std::string_view local) const;
  bool is_our_host(std::string_view host, std::string_view local) const;
  bool is_our_origin(const Request& request) const;
  bool has_session(const Request& request) const;
  std::optional<Response> check_outside(const Request& request) const;
  std::optional<Response> check_token(const Request& request);
  Admission admit_account(const Request& request);

  GuardSettings settings_;
  std::string version_;
  std::string token_;
  std::string session_;
  std::string cookie_name_;
  std::atomic<bool> token_used_ = false;
  Visitor without_accounts_;
  SignIns* sign_ins_;
};

/// With the port, since cookies know no ports; where connections are encrypted, with the prefix under which a browser
/// takes it from this host alone (RFC 6265bis, section 4.1.3.2).
std::string cookie_name(std::uint16_t port, bool encrypted);

/// The headers that every answer carries: no script but our own, no frame, no guessing of types, no address passed on;
/// where the connection is encrypted, none that is not for half a year.
void add_security_headers(Response& response, bool encrypted);

/// How many requests are answered at once; the rest is told to come again (429).
class Gate {
 public:
  explicit Gate(int most) : most_(most) {}

  /// True where there was room; then `leave` has to follow.
  bool enter();
  void leave();

 private:
  std::atomic<int> inside_ = 0;
  int most_;
};

/// One request inside the gate, for as long as this lives.
class Pass {
 public:
  explicit Pass(Gate& gate) : gate_(gate), inside_(gate.enter()) {}
  ~Pass() {
    if (inside_) gate_.leave();
  }
  Pass(const Pass&) = delete;
  Pass& operator=(const Pass&) = delete;
  bool inside() const { return inside_; }

 private:
  Gate& gate_;
  bool inside_;
};

}  // namespace sherd::http
