#pragma once

#include <array>
#include <cstdint>
#include <string_view>

namespace sherd {

/// 128 bits, the first eight bytes of a hash as `low`, little end first.
struct Bits128 {
  std::uint64_t low = 0, high = 0;

  bool operator==(const Bits128&) const = default;
  /// Modulo 2^128.
  Bits128& operator+=(const Bits128& more);
};

using SipKey = std::array<unsigned char, 16>;

/// SipHash-2-4 with 128 bits (Aumasson and Bernstein, "SipHash: a fast short-input PRF", 2012, and its reference
/// implementation for the longer output). Tells altered bytes, not forged ones where the key is known.
Bits128 siphash128(const SipKey& key, std::string_view bytes);

}  // namespace sherd
