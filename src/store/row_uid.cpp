#include "store/row_uid.h"

#include <span>

#include "base/hash.h"

namespace sherd::store {

namespace {

constexpr std::string_view kDigits = "0123456789abcdefghijklmnopqrstuv";

void write_base32(std::span<char> to, std::uint64_t value) {
  for (std::size_t i = to.size(); i-- > 0; value >>= 5U) to[i] = kDigits[value & 31U];
}

std::uint64_t leading_bits(std::string_view hex, unsigned bits) {
  std::uint64_t value = 0;
  for (const char c : hex.substr(0, 16)) {
    value = value * 16 + static_cast<std::uint64_t>(c <= '9' ? c - '0' : c - 'a' + 10);
  }
  return value >> (64U - bits);
}

}  // namespace

RowUids::RowUids(std::int64_t seq, std::string_view change_uid) {
  const std::span<char> text(text_);
  write_base32(text.subspan(0, 6), static_cast<std::uint64_t>(seq));
  write_base32(text.subspan(6, 10), leading_bits(sha256(change_uid), 50));
}

std::string_view RowUids::at(std::int64_t ordinal) {
  write_base32(std::span<char>(text_).subspan(16, 5), static_cast<std::uint64_t>(ordinal));
  return {text_.data(), text_.size()};
}

}  // namespace sherd::store
