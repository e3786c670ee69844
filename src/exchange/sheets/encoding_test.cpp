#include "exchange/sheets/encoding.h"

#include <gtest/gtest.h>

#include "exchange/sheets/sheet_fixture.h"

namespace sherd::exchange {
namespace {

using namespace std::string_literals;
using fixture::cells_of;
using fixture::error_of;
using fixture::read_whole;
using Rows = std::vector<fixture::Row>;

/// ASCII and the two letters of "Gefäß" as UTF-16.
std::string utf16(std::string_view latin1, bool big_endian) {
  std::string out;
  for (const char c : latin1) {
    if (big_endian) out += '\0';
    out += c;
    if (!big_endian) out += '\0';
  }
  return out;
}

TEST(Encoding, utf8_is_read_with_and_without_a_mark) {
  const Rows expected{{"fabric", "form"}, {"Gefäß", "甕"}};
  EXPECT_EQ(cells_of("fabric,form\nGefäß,甕\n"), expected);
  EXPECT_EQ(cells_of("\xEF\xBB\xBF"
                     "fabric,form\nGefäß,甕\n"),
            expected);
  EXPECT_EQ(cells_of("\xEF\xBB\xBF\"fabric\",form\nGefäß,甕\n"), expected);
}

TEST(Encoding, utf16_is_read_in_both_orders_with_and_without_a_mark) {
  const Rows expected{{"fabric", "form"}, {"Gef\u00E4\u00DF", "jar"}};
  const std::string text = "fabric,form\nGef\xE4\xDF,jar\n";
  for (const bool big : {false, true}) {
    const std::string mark = big ? "\xFE\xFF" : "\xFF\xFE";
    for (const std::string& bytes : {mark + utf16(text, big), utf16(text, big)}) {
      const auto table = read_whole(bytes);
      ASSERT_TRUE(table);
      EXPECT_EQ(table->cells, expected);
      EXPECT_EQ(table->format.encoding, big ? "UTF-16BE" : "UTF-16LE");
    }
  }
}

TEST(Encoding, surrogate_pairs_make_one_character) {
  // RFC 2781 section 5: U+12345 is D8 08 DF 45 in big-endian, 08 D8 45 DF in little-endian order.
  EXPECT_EQ(decode_text("\xFE\xFF\xD8\x08\xDF\x45"s)->text(), "\U00012345");
  EXPECT_EQ(decode_text("\xFF\xFE\x08\xD8\x45\xDF"s)->text(), "\U00012345");
}

TEST(Encoding, half_a_utf16_character_is_an_error_with_its_line) {
  const Error lone = error_of("\xFE\xFF\0a\0,\0b\0\n\xDF\x45\0,\0c"s, "t.csv");
  EXPECT_EQ(lone.code, "bad_encoding");
  EXPECT_EQ(lone.message, "The text is UTF-16BE, but line 2 holds half a character.");
  EXPECT_EQ(lone.where.line, 2);
  EXPECT_EQ(error_of("\xFF\xFE"
                     "a\0,\0b\0\n\0c"s)
                .message,
            "The text is UTF-16LE, but line 2 ends in half a character.");
}

TEST(Encoding, windows_1252_is_read_and_said) {
  // Unicode Consortium, MAPPINGS/VENDORS/MICSFT/WINDOWS/CP1252.TXT: 80 = U+20AC, 93 = U+201C, 94 = U+201D, 96 = U+2013,
  // 9C = U+0153, 9F = U+0178, E9 = U+00E9.
  const auto table = read_whole("a,b\ncaf\xE9 \x93q\x94,\x80 5\x96\x9C\x9F\n");
  ASSERT_TRUE(table);
  EXPECT_EQ(table->cells[1], (fixture::Row{"caf\u00E9 \u201Cq\u201D", "\u20AC 5\u2013\u0153\u0178"}));
  EXPECT_EQ(table->format.encoding, "Windows-1252");
  EXPECT_EQ(table->format.warnings,
            (std::vector<std::string>{"The text is not valid UTF-8 and was read as Windows-1252."}));
}

TEST(Encoding, a_byte_that_windows_1252_leaves_undefined_is_an_error) {
  // The same table has no character for 81, 8D, 8F, 90 and 9D.
  for (const char* byte : {"\x81", "\x8D", "\x8F", "\x90", "\x9D"})
    EXPECT_EQ(error_of("a,b\n1,"s + byte).code, "bad_encoding");
  EXPECT_EQ(error_of("a,b\r\n1,\x81\r\n"s).message,
            "The text is neither UTF-8 nor Windows-1252: line 2 holds the byte 0x81.");
}

TEST(Encoding, utf8_with_one_spoilt_letter_is_refused_rather_than_read_as_something_else) {
  const Error error = error_of("größe,ärger,öfen\nfüße,äpfel,gef\xE4\xDF\nçà,éé,ôô\nçà,éé,ôô\n");
  EXPECT_EQ(error.code, "bad_encoding");
  EXPECT_EQ(error.message, "The text is UTF-8, but line 2 holds the byte 0xE4, which is not.");
  EXPECT_EQ(error.hint, "Save the table again as CSV in the encoding UTF-8, or as XLSX.");
  EXPECT_EQ(error_of("\xEF\xBB\xBF"
                     "a,b\n1,\xE9\n")
                .code,
            "bad_encoding");
}

TEST(Encoding, ill_formed_utf8_is_not_taken_for_utf8) {
  // Unicode Standard, table 3-7: overlong C0 80 and E0 80 80, surrogate ED A0 80, beyond the end F4 90 80 80, cut off
  // E2 82.
  for (const char* bytes : {"\xC0\x80", "\xE0\x80\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xE2\x82"}) {
    const auto text = decode_text("a,b\n1,"s + bytes);
    EXPECT_TRUE(!text || text->encoding == "Windows-1252") << bytes;
  }
}

TEST(Encoding, bytes_that_are_no_text_are_no_table) {
  std::string binary;
  for (int i = 0; i < 3000; ++i) binary += static_cast<char>(i * 7 % 256);
  for (const std::string& bytes : {binary, "a,b\n1,\0\n"s, "\xFE\xFF\0a\0\0\0b"s, std::string(500, '\x01')}) {
    const Error error = error_of(bytes, "x.csv");
    EXPECT_EQ(error.code, "not_a_table");
    EXPECT_EQ(error.message, "The file is neither text nor a spreadsheet.");
    EXPECT_EQ(error.where.file, "x.csv");
  }
}

TEST(Encoding, code_points_become_the_utf8_of_rfc_3629) {
  // RFC 3629 section 7: U+0041 U+2262 U+0391 U+002E; U+233B4 is F0 A3 8E B4.
  std::string out;
  for (const char32_t c : {U'\u0041', U'\u2262', U'\u0391', U'\u002E', U'\U000233B4'}) append_utf8(out, c);
  EXPECT_EQ(out, "\x41\xE2\x89\xA2\xCE\x91\x2E\xF0\xA3\x8E\xB4");
}

}  // namespace
}  // namespace sherd::exchange
