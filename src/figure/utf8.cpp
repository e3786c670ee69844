#include "figure/utf8.h"

#include <algorithm>

#include "base/text.h"

namespace sherd::figure {
namespace {

std::size_t length_by_lead(unsigned char lead) {
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead < 0xE0) return 2;
  if (lead >= 0xE0 && lead < 0xF0) return 3;
  if (lead >= 0xF0 && lead < 0xF5) return 4;
  return 0;
}

}  // namespace

Character character_at(std::string_view text, std::size_t at) {
  const auto lead = static_cast<unsigned char>(text[at]);
  const std::size_t length = length_by_lead(lead);
  if (length == 1) return {lead, 1};
  if (length == 0 || at + length > text.size() || !is_utf8(text.substr(at, length))) return {0xFFFD, 1};
  char32_t code = lead & (0xFFu >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    code = (code << 6) | (static_cast<unsigned char>(text[at + i]) & 0x3Fu);
  }
  return {code, length};
}

}  // namespace sherd::figure
