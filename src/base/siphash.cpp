#include "base/siphash.h"

#include <sodium/crypto_shorthash_siphash24.h>

namespace sherd {

namespace {

std::uint64_t little_endian(const unsigned char* bytes) {
  std::uint64_t value = 0;
  for (unsigned i = 0; i < 8; ++i) value |= static_cast<std::uint64_t>(bytes[i]) << (8U * i);
  return value;
}

}  // namespace

Bits128& Bits128::operator+=(const Bits128& more) {
  low += more.low;
  high += more.high + (low < more.low ? 1U : 0U);
  return *this;
}

Bits128 siphash128(const SipKey& key, std::string_view bytes) {
  static_assert(SipKey{}.size() == crypto_shorthash_siphashx24_KEYBYTES);
  std::array<unsigned char, crypto_shorthash_siphashx24_BYTES> out{};
  crypto_shorthash_siphashx24(out.data(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(),
                              key.data());
  return {little_endian(out.data()), little_endian(out.data() + 8)};
}

}  // namespace sherd
