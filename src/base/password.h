#pragma once

#include <string>
#include <string_view>

#include "base/result.h"

namespace sherd {

/// What one guess costs whoever has the hash. `usual`: 64 MiB and two passes (libsodium's "interactive"), above the
/// 19 MiB and two passes that the OWASP Password Storage Cheat Sheet asks of argon2id. `least` is for tests.
enum class PasswordCost { usual, least };

/// The password as a string to keep: argon2id (RFC 9106) with its salt and cost. Error `no_memory`.
Result<std::string> password_hash(std::string_view password, PasswordCost cost = PasswordCost::usual);

/// True where `password` is the one of `hash`. Takes as long for a wrong one.
bool is_password(std::string_view password, const std::string& hash);

/// A password of `characters` letters and digits that are not easily mistaken for each other, 5 bits each, from the
/// operating system's randomness.
std::string random_password(int characters = 20);

}  // namespace sherd
