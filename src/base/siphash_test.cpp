#include "base/siphash.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <numeric>
#include <string>

namespace sherd {
namespace {

/// The reference vectors' key 00 01 .. 0f and message 00 01 .. of that length.
Bits128 of_vector(std::size_t length) {
  SipKey key{};
  std::iota(key.begin(), key.end(), static_cast<unsigned char>(0));
  std::string message(length, '\0');
  for (std::size_t i = 0; i < length; ++i) message[i] = static_cast<char>(i);
  return siphash128(key, message);
}

TEST(SipHash, gives_the_published_vectors) {
  // github.com/veorq/SipHash, vectors.h, vectors_sip128: entries 0, 1, 8, 15 and 63, read eight bytes at a time.
  EXPECT_EQ(of_vector(0), (Bits128{0xe6a825ba047f81a3U, 0x930255c71472f66dU}));
  EXPECT_EQ(of_vector(1), (Bits128{0x44af996bd8c187daU, 0x45fc229b11597634U}));
  EXPECT_EQ(of_vector(8), (Bits128{0x61f55862baa9623bU, 0xb49714f364e2830fU}));
  EXPECT_EQ(of_vector(15), (Bits128{0x11a8b03399e99354U, 0xd9c3cf970fec087eU}));
  EXPECT_EQ(of_vector(63), (Bits128{0x4a83502f77d15051U, 0x7cbd3f979a063e50U}));
}

TEST(SipHash, sums_carry_from_the_lower_half_and_do_not_depend_on_order) {
  Bits128 sum{UINT64_MAX, 1};
  sum += Bits128{1, 2};
  EXPECT_EQ(sum, (Bits128{0, 4}));
  Bits128 a = of_vector(3), b = of_vector(4);
  a += of_vector(4);
  b += of_vector(3);
  EXPECT_EQ(a, b);
  Bits128 wrapped{UINT64_MAX, UINT64_MAX};
  wrapped += Bits128{1, 0};
  EXPECT_EQ(wrapped, Bits128{});
}

}  // namespace
}  // namespace sherd
