#include "exchange/sheets/encoding.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>

namespace sherd::exchange {
namespace {

constexpr std::string_view kSaveAsUtf8 = "Save the table again as CSV in the encoding UTF-8, or as XLSX.";

std::uint8_t byte_at(std::string_view bytes, std::size_t i) { return static_cast<std::uint8_t>(bytes[i]); }

std::int64_t line_of(std::string_view text, std::size_t offset) {
  std::int64_t line = 1;
  for (std::size_t i = 0; i < offset; ++i)
    if (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.size() || text[i + 1] != '\n'))) ++line;
  return line;
}

std::unexpected<Error> bad_encoding(std::string message, std::int64_t line) {
  Error error{ErrorKind::data, "bad_encoding", std::move(message), {}, std::string(kSaveAsUtf8)};
  error.where.line = line;
  return std::unexpected(std::move(error));
}

std::unexpected<Error> no_text() {
  return fail("not_a_table", "The file is neither text nor a spreadsheet.", "Give a table as CSV, TSV, XLSX or ODS.");
}

/// Length of the well-formed UTF-8 sequence at `i`, 0 where there is none (Unicode Standard, table 3-7).
std::size_t sequence_length(std::string_view bytes, std::size_t i) {
  const std::uint8_t lead = byte_at(bytes, i);
  if (lead < 0x80) return 1;
  const std::size_t length = lead >= 0xC2 && lead <= 0xDF   ? 2
                             : lead >= 0xE0 && lead <= 0xEF ? 3
                             : lead >= 0xF0 && lead <= 0xF4 ? 4
                                                            : 0;
  if (length == 0 || bytes.size() - i < length) return 0;
  const std::uint8_t low = lead == 0xE0 ? 0xA0 : lead == 0xF0 ? 0x90 : 0x80;
  const std::uint8_t high = lead == 0xED ? 0x9F : lead == 0xF4 ? 0x8F : 0xBF;
  if (byte_at(bytes, i + 1) < low || byte_at(bytes, i + 1) > high) return 0;
  for (std::size_t k = 2; k < length; ++k)
    if ((byte_at(bytes, i + k) & 0xC0) != 0x80) return 0;
  return length;
}

struct Utf8Census {
  std::size_t sequences = 0;  ///< of two bytes and more
  std::size_t invalid = 0;    ///< bytes outside any sequence
  std::size_t first_invalid = 0;
};

Utf8Census census_of(std::string_view bytes) {
  Utf8Census census;
  std::size_t i = 0;
  while (i < bytes.size()) {
    std::uint64_t word = 0;
    while (bytes.size() - i >= sizeof word) {
      std::memcpy(&word, bytes.data() + i, sizeof word);
      if ((word & 0x8080808080808080ULL) != 0) break;
      i += sizeof word;
    }
    if (i >= bytes.size()) break;
    const std::size_t length = sequence_length(bytes, i);
    if (length == 0 && census.invalid++ == 0) census.first_invalid = i;
    if (length > 1) ++census.sequences;
    i += std::max<std::size_t>(length, 1);
  }
  return census;
}

/// Windows-1252 from 0x80 to 0x9F; 0 where the code page leaves the byte undefined.
/// Source: Unicode Consortium, Public/MAPPINGS/VENDORS/MICSFT/WINDOWS/CP1252.TXT.
constexpr std::array<char32_t, 32> kWindows1252 = {0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
                                                   0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0,      0x017D, 0,
                                                   0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                                   0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

Result<DecodedText> from_windows_1252(std::string_view bytes) {
  std::string out;
  out.reserve(bytes.size() + bytes.size() / 16);
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    const std::uint8_t byte = byte_at(bytes, i);
    if (byte < 0x80) {
      out += bytes[i];
      continue;
    }
    const char32_t code_point = byte < 0xA0 ? kWindows1252[byte - 0x80U] : byte;
    if (code_point == 0) {
      const std::int64_t line = line_of(bytes, i);
      return bad_encoding(
          fmt::format("The text is neither UTF-8 nor Windows-1252: line {} holds the byte 0x{:02X}.", line, byte),
          line);
    }
    append_utf8(out, code_point);
  }
  return DecodedText{"Windows-1252", std::move(out), {}};
}

char32_t unit_at(std::string_view bytes, std::size_t i, bool big_endian) {
  const char32_t first = byte_at(bytes, i);
  const char32_t second = byte_at(bytes, i + 1);
  return big_endian ? first << 8 | second : second << 8 | first;
}

/// UTF-16 without its byte order mark (RFC 2781).
Result<DecodedText> from_utf16(std::string_view bytes, bool big_endian) {
  const std::string encoding = big_endian ? "UTF-16BE" : "UTF-16LE";
  std::string out;
  out.reserve(bytes.size() / 2 + bytes.size() / 8);
  const auto broken = [&](std::string_view what) {
    const std::int64_t line = line_of(out, out.size());
    return bad_encoding(fmt::format("The text is {}, but line {} {}.", encoding, line, what), line);
  };
  std::size_t i = 0;
  for (; i + 1 < bytes.size(); i += 2) {
    char32_t code_point = unit_at(bytes, i, big_endian);
    if (code_point == 0) return no_text();
    if (code_point >= 0xDC00 && code_point <= 0xDFFF) return broken("holds half a character");
    if (code_point >= 0xD800 && code_point <= 0xDBFF) {
      const char32_t low = i + 3 < bytes.size() ? unit_at(bytes, i + 2, big_endian) : 0;
      if (low < 0xDC00 || low > 0xDFFF) return broken("holds half a character");
      code_point = 0x10000 + ((code_point - 0xD800) << 10) + (low - 0xDC00);
      i += 2;
    }
    append_utf8(out, code_point);
  }
  if (i < bytes.size()) return broken("ends in half a character");
  return DecodedText{encoding, std::move(out), {}};
}

/// 'l' or 'b' where nearly every second byte of the beginning is zero and its neighbours are not; 0 otherwise.
char utf16_without_mark(std::string_view bytes) {
  const std::size_t pairs = std::min<std::size_t>(bytes.size(), 4096) / 2;
  std::size_t zero_first = 0;
  std::size_t zero_second = 0;
  for (std::size_t i = 0; i < pairs; ++i) {
    zero_first += bytes[2 * i] == 0;
    zero_second += bytes[2 * i + 1] == 0;
  }
  if (pairs == 0) return 0;
  if (zero_first == 0 && zero_second * 10 >= pairs * 6) return 'l';
  if (zero_second == 0 && zero_first * 10 >= pairs * 6) return 'b';
  return 0;
}

/// Control characters but tab, line feed, form feed and carriage return make up more than 2 % of the beginning.
bool looks_binary(std::string_view bytes) {
  const std::string_view start = bytes.substr(0, 65536);
  const auto controls = std::ranges::count_if(start, [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return (byte < 0x20 && byte != '\t' && byte != '\n' && byte != '\f' && byte != '\r') || byte == 0x7F;
  });
  return static_cast<std::size_t>(controls) * 50 > start.size();
}

}  // namespace

void append_utf8(std::string& out, char32_t c) {
  const auto put = [&out](char32_t byte) { out += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (c < 0x80) {
    put(c);
  } else if (c < 0x800) {
    put(0xC0 | c >> 6);
    put(0x80 | (c & 0x3F));
  } else if (c < 0x10000) {
    put(0xE0 | c >> 12);
    put(0x80 | (c >> 6 & 0x3F));
    put(0x80 | (c & 0x3F));
  } else {
    put(0xF0 | c >> 18);
    put(0x80 | (c >> 12 & 0x3F));
    put(0x80 | (c >> 6 & 0x3F));
    put(0x80 | (c & 0x3F));
  }
}

Result<DecodedText> decode_text(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xFE")) return from_utf16(bytes.substr(2), false);
  if (bytes.starts_with("\xFE\xFF")) return from_utf16(bytes.substr(2), true);
  const bool marked = bytes.starts_with("\xEF\xBB\xBF");
  if (marked) bytes.remove_prefix(3);
  if (bytes.find('\0') != std::string_view::npos) {
    const char endian = marked ? char{0} : utf16_without_mark(bytes);
    if (endian == 0) return no_text();
    return from_utf16(bytes, endian == 'b');
  }
  if (looks_binary(bytes)) return no_text();
  const Utf8Census census = census_of(bytes);
  if (census.invalid == 0) return DecodedText{"UTF-8", std::nullopt, bytes};
  if (marked || census.sequences > 4 * census.invalid) {
    const std::int64_t line = line_of(bytes, census.first_invalid);
    return bad_encoding(fmt::format("The text is UTF-8, but line {} holds the byte 0x{:02X}, which is not.", line,
                                    byte_at(bytes, census.first_invalid)),
                        line);
  }
  return from_windows_1252(bytes);
}

}  // namespace sherd::exchange
