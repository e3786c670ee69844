#include <cstddef>
#include <cstdint>
#include <string>

#include "access/accounts.h"
#include "base/password.h"

/// A list of accounts as somebody may have altered it: what is read is written and read again as the same. The first
/// account's name also serves as a password to be judged, and as a hash to be tried.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(data, data + size);
  const sherd::access::Account somebody{.name = "ben", .recorder = "B"};
  (void)sherd::access::check_password(text, somebody);
  if (!text.contains("$argon2")) (void)sherd::is_password("x", text);  // a hash may ask for more than one input's time
  const auto accounts = sherd::access::Accounts::read(text);
  if (!accounts) return 0;
  const auto again = sherd::access::Accounts::read(accounts->text());
  if (!again || again->all() != accounts->all()) __builtin_trap();
  return 0;
}
