#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "desk/frame/memory_files.h"
#include "http/guard.h"
#include "http/sign_in.h"

using namespace sherd;

namespace {

constexpr std::string_view kFile = "accounts.csv";

http::SignInSettings settings(std::int64_t& now) {
  http::SignInSettings settings;
  settings.accounts = kFile;
  settings.cookie = "sherdwright_1";
  settings.cost = PasswordCost::least;
  settings.tries.free = settings.address_tries.free = 1'000'000;  // a hash each time; the throttle has its own tests
  settings.clock = [&now] { return now; };
  settings.audit = access::audit_by_lines([] { return std::string("2026-01-02T03:04:05Z"); },
                                          [](const std::string& line) {
                                            for (const char c : line) {
                                              if (c < ' ' || c > '~') __builtin_trap();
                                            }
                                          });
  return settings;
}

}  // namespace

/// What somebody without an account may send: method and path by the first byte, then headers of this request up to a
/// NUL, then its body. Nobody gets in, and the log keeps to its lines.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static std::int64_t now = 1'000'000;
  static int secrets = 0;
  static desk::MemoryFiles files;
  static const bool kMade = files
                                .write(std::string(kFile),
                                       "name,recorder,role,since,must_change,password\n"
                                       "ben,B,owner,0,no,\"$argon2id$v=19$m=8,t=1,p=1$c29tZXNhbHQ$"
                                       "AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA\"\n")
                                .has_value();
  static const auto kSecret = [] { return "secret" + std::to_string(++secrets); };
  static http::SignIns sign_ins(settings(now), "0.0-fuzz", files, kSecret);
  static http::Guard guard({.port = 1}, "0.0-fuzz", kSecret, {}, &sign_ins);
  if (!kMade || size == 0) return 0;
  constexpr std::array<std::string_view, 8> kPaths{
      "/api/session",  "/api/sign-in",   "/api/sign-out",    "/api/password",
      "/api/sessions", "/api/sessions/", "/api/site?token=", "/"};
  constexpr std::array<std::string_view, 4> kMethods{"GET", "POST", "DELETE", "PUT"};
  const std::string text(data + 1, data + size);
  const std::size_t cut = std::min(text.find('\0'), text.size());
  http::Request request{.method = std::string(kMethods[data[0] / 8 % 4]),
                        .target = std::string(kPaths[data[0] % 8]),
                        .headers = {{"Host", "127.0.0.1:1"}, {"Content-Type", "application/json"}},
                        .body = text.substr(std::min(cut + 1, text.size())),
                        .peer = "10.0.0.7",
                        .local = {},
                        .stopping = {}};
  if ((data[0] & 128U) != 0) {
    request.headers.emplace_back("Cookie", text.substr(0, cut));
  } else if ((data[0] & 64U) != 0) {
    request.headers.emplace_back("Origin", text.substr(0, cut));
  } else {
    request.target += text.substr(0, cut);
  }
  now += 1;
  const auto admission = guard.admit(request);
  const bool is_api = request.path().starts_with("/api/");
  if (is_api && !admission.answer) __builtin_trap();
  if (admission.answer && admission.answer->status >= 500) __builtin_trap();
  const bool signed_in = admission.answer && admission.answer->status == 200 && request.path() != "/api/sign-out";
  if (is_api && signed_in) __builtin_trap();
  return 0;
}
