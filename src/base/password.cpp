#include "base/password.h"

#include <sodium/core.h>
#include <sodium/crypto_pwhash.h>
#include <sodium/randombytes.h>

#include <array>

namespace sherd {

namespace {

/// Picks the fastest code for this machine; without it the slow code is used. Safe to call more than once.
void begin_sodium() { [[maybe_unused]] static const int begun = sodium_init(); }

}  // namespace

Result<std::string> password_hash(std::string_view password, PasswordCost cost) {
  begin_sodium();
  const bool usual = cost == PasswordCost::usual;
  std::array<char, crypto_pwhash_STRBYTES> kept{};
  const int failed = crypto_pwhash_str_alg(kept.data(), password.data(), password.size(),
                                           usual ? crypto_pwhash_OPSLIMIT_INTERACTIVE : crypto_pwhash_OPSLIMIT_MIN,
                                           usual ? crypto_pwhash_MEMLIMIT_INTERACTIVE : crypto_pwhash_MEMLIMIT_MIN,
                                           crypto_pwhash_ALG_ARGON2ID13);
  if (failed != 0)
    return fail(ErrorKind::internal, "no_memory", "there is no memory to work out a password's hash",
                "close other programs; it takes 64 MiB for a moment");
  return std::string(kept.data());
}

bool is_password(std::string_view password, const std::string& hash) {
  begin_sodium();
  if (hash.size() >= crypto_pwhash_STRBYTES) return false;
  std::array<char, crypto_pwhash_STRBYTES> kept{};
  hash.copy(kept.data(), hash.size());
  return crypto_pwhash_str_verify(kept.data(), password.data(), password.size()) == 0;
}

std::string random_password(int characters) {
  begin_sodium();
  constexpr std::string_view kLetters = "abcdefghijkmnpqrstuvwxyz23456789";  // 32, without l, o, 0 and 1
  std::string password;
  for (int i = 0; i < characters; ++i) password += kLetters[randombytes_uniform(kLetters.size())];
  return password;
}

}  // namespace sherd
