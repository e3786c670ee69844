#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "base/base64.h"
#include "base/hash.h"
#include "base/numbers.h"
#include "base/random.h"
#include "base/text.h"

namespace sherd {
namespace {

TEST(Numbers, a_weight_is_read_exactly_to_the_milligram) {
  EXPECT_EQ(*parse_scaled("14.5", 3), 14500);
  EXPECT_EQ(*parse_scaled(" 407441.7 ", 3), 407441700);
  EXPECT_EQ(*parse_scaled("0.0005", 3), 1);
  EXPECT_EQ(*parse_scaled("0.00049", 3), 0);
  EXPECT_EQ(*parse_scaled("-3", 3), -3000);
  EXPECT_EQ(*parse_scaled("1.45E+1", 3), 14500);
  EXPECT_EQ(*parse_scaled("0", 3), 0);
  EXPECT_EQ(*parse_scaled(".5", 1), 5);
}

TEST(Numbers, what_is_not_a_number_is_said_in_its_own_words) {
  for (const char* text : {"", "12 g", "1,450", "abc", "1.2.3", "--1", "1e999", "."}) {
    const auto number = parse_scaled(text, 0);
    ASSERT_FALSE(number) << text;
    EXPECT_EQ(number.error().code, "not_a_number");
  }
  EXPECT_EQ(parse_scaled("12 g", 0).error().message, "\"12 g\" is not a number");
  EXPECT_EQ(parse_scaled("99999999999999999999", 3).error().code, "number_too_large");
}

TEST(Numbers, scaled_integers_print_without_trailing_zeros) {
  EXPECT_EQ(format_scaled(14500, 3), "14.5");
  EXPECT_EQ(format_scaled(5, 3), "0.005");
  EXPECT_EQ(format_scaled(-14000, 3), "-14");
  EXPECT_EQ(format_scaled(0, 3), "0");
  EXPECT_EQ(format_fixed(-0.001, 2), "0.00");
  EXPECT_EQ(format_double(0.1), "0.1");
  EXPECT_EQ(format_double(100'000), "100000");
  EXPECT_EQ(format_double(-27'000'000.5), "-27000000.5");
}

TEST(Text, utf8_follows_rfc_3629) {
  EXPECT_TRUE(is_utf8("Gef\xC3\xA4\xC3\x9F \xE2\x80\x93 \xF0\x9F\x8F\xBA"));
  EXPECT_FALSE(is_utf8("\xC0\xAF"));          // overlong
  EXPECT_FALSE(is_utf8("\xED\xA0\x80"));      // surrogate
  EXPECT_FALSE(is_utf8("\xF4\x90\x80\x80"));  // above U+10FFFF
  EXPECT_FALSE(is_utf8("caf\xE9"));           // Windows-1252
  EXPECT_FALSE(is_utf8("\xE2\x80"));          // cut short
}

TEST(Text, a_near_name_is_proposed_and_a_far_one_is_not) {
  const std::vector<std::string> fabrics{"grey-1", "grey-2", "shell-3", "red-gloss"};
  EXPECT_EQ(did_you_mean("gery-1", fabrics), "did you mean \"grey-1\"?");
  EXPECT_EQ(did_you_mean("Shell-3", fabrics), "did you mean \"shell-3\"?");
  EXPECT_EQ(did_you_mean("porcelain", fabrics), "");
  EXPECT_EQ(edit_distance("ca", "ac"), 1U);
  EXPECT_EQ(edit_distance("kitten", "sitting"), 3U);  // common example, from memory
}

TEST(Text, numbers_in_sentences_agree_with_their_nouns) {
  EXPECT_EQ(counted(1, "sherd"), "1 sherd");
  EXPECT_EQ(counted(12345, "sherd"), "12,345 sherds");
  EXPECT_EQ(counted(2, "box", "boxes"), "2 boxes");
  EXPECT_EQ(trim(" \xC2\xA0 a b\t\r\n"), "a b");
  EXPECT_EQ(shortened("Gef\xC3\xA4\xC3\x9F", 4), "Gef\xC3\xA4\u2026");
}

// FIPS 180-4 example: SHA-256 of "abc" (NIST, Cryptographic Standards and Guidelines, example values).
TEST(Hash, sha256_gives_the_published_example) {
  EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

// RFC 4648, section 10.
TEST(Base64, gives_the_published_vectors) {
  EXPECT_EQ(base64(""), "");
  EXPECT_EQ(base64("f"), "Zg==");
  EXPECT_EQ(base64("fo"), "Zm8=");
  EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
  for (const char* text : {"", "f", "fo", "foo", "foob", "fooba", "foobar"}) {
    const auto back = base64_decoded(base64(text));
    EXPECT_TRUE(back.has_value()) << text;
    EXPECT_EQ(back.value_or("?"), text);
  }
  for (const char* text : {"Zg", "Zg=", "Z===", "Zm9v!", "Zg==Zg==", "Zm 9"})
    EXPECT_FALSE(base64_decoded(text)) << text;
}

// Known answers of the Random123 distribution (Salmon et al. 2011), kat_vectors, philox4x32 10 rounds; from memory.
TEST(Random, philox_gives_the_known_answers) {
  using Block = std::array<std::uint32_t, 4>;
  EXPECT_EQ(philox({0, 0, 0, 0}, {0, 0}), (Block{0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8}));
  EXPECT_EQ(philox({~0U, ~0U, ~0U, ~0U}, {~0U, ~0U}), (Block{0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd}));
  EXPECT_EQ(philox({0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344}, {0xa4093822, 0x299f31d0}),
            (Block{0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1}));
}

TEST(Random, draws_have_the_moments_they_should) {
  Random random(26, 1);
  constexpr int kDraws = 200000;
  double uniform = 0;
  double normal = 0;
  double square = 0;
  double geometric = 0;
  double poisson = 0;
  std::array<int, 6> faces{};
  for (int i = 0; i < kDraws; ++i) {
    uniform += random.uniform();
    const double z = random.normal();
    normal += z;
    square += z * z;
    geometric += static_cast<double>(random.geometric(15));
    poisson += static_cast<double>(random.poisson(3.5));
    ++faces[random.below(6)];
  }
  // Five standard errors each.
  EXPECT_NEAR(uniform / kDraws, 0.5, 5 * std::sqrt(1.0 / 12 / kDraws));
  EXPECT_NEAR(normal / kDraws, 0.0, 5 * std::sqrt(1.0 / kDraws));
  EXPECT_NEAR(square / kDraws, 1.0, 5 * std::sqrt(2.0 / kDraws));
  EXPECT_NEAR(geometric / kDraws, 15.0, 5 * std::sqrt(15.0 * 16.0 / kDraws));
  EXPECT_NEAR(poisson / kDraws, 3.5, 5 * std::sqrt(3.5 / kDraws));
  for (const int face : faces) EXPECT_NEAR(face, kDraws / 6.0, 5 * std::sqrt(kDraws * 5.0 / 36));
}

TEST(Random, the_same_seed_and_stream_give_the_same_numbers) {
  Random a(7, 3);
  Random b(7, 3);
  Random other(7, 4);
  bool differs = false;
  for (int i = 0; i < 100; ++i) {
    const auto x = a.bits();
    EXPECT_EQ(x, b.bits());
    differs = differs || x != other.bits();
  }
  EXPECT_TRUE(differs);
}

}  // namespace
}  // namespace sherd
