#include "base/text.h"

#include <algorithm>
#include <cstdint>
#include <numeric>

namespace sherd {

namespace {

bool is_space(char c) { return c == ' ' || (c >= '\t' && c <= '\r'); }

std::size_t sequence_length(unsigned char lead) {
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead <= 0xDF) return 2;
  if (lead >= 0xE0 && lead <= 0xEF) return 3;
  if (lead >= 0xF0 && lead <= 0xF4) return 4;
  return 0;
}

bool second_byte_fits(unsigned char lead, unsigned char second) {
  switch (lead) {
    case 0xE0:
      return second >= 0xA0;  // no overlong forms
    case 0xED:
      return second <= 0x9F;  // no surrogates
    case 0xF0:
      return second >= 0x90;
    case 0xF4:
      return second <= 0x8F;  // nothing above U+10FFFF
    default:
      return true;
  }
}

}  // namespace

std::string_view trim(std::string_view text) {
  constexpr std::string_view kNoBreak = "\xC2\xA0";
  for (;;) {
    if (!text.empty() && is_space(text.front())) {
      text.remove_prefix(1);
    } else if (!text.empty() && is_space(text.back())) {
      text.remove_suffix(1);
    } else if (text.starts_with(kNoBreak)) {
      text.remove_prefix(2);
    } else if (text.ends_with(kNoBreak)) {
      text.remove_suffix(2);
    } else {
      return text;
    }
  }
}

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

std::vector<std::string_view> split(std::string_view text, char separator) {
  std::vector<std::string_view> parts;
  for (;;) {
    const std::size_t end = text.find(separator);
    parts.push_back(text.substr(0, end));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + 1);
  }
}

std::string percent_encoded(std::string_view text) {
  constexpr std::string_view kDigits = "0123456789ABCDEF";
  std::string out;
  for (const char c : text) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
                       c == '.' || c == '_' || c == '~';
    if (plain) {
      out += c;
      continue;
    }
    const auto byte = static_cast<unsigned char>(c);
    out += '%';
    out += kDigits[byte >> 4U];
    out += kDigits[byte & 15U];
  }
  return out;
}

std::string join(std::span<const std::string> parts, std::string_view separator) {
  std::string out;
  for (const std::string& part : parts) {
    if (&part != parts.data()) out += separator;
    out += part;
  }
  return out;
}

std::string replace_all(std::string text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
  return text;
}

bool is_utf8(std::string_view bytes) {
  const auto* p = reinterpret_cast<const unsigned char*>(bytes.data());
  const auto* end = p + bytes.size();
  while (p < end) {
    const std::size_t length = sequence_length(*p);
    if (length == 0 || static_cast<std::size_t>(end - p) < length) return false;
    for (std::size_t i = 1; i < length; ++i) {
      if ((p[i] & 0xC0U) != 0x80U) return false;
    }
    if (length > 1 && !second_byte_fits(p[0], p[1])) return false;
    p += length;
  }
  return true;
}

std::string shortened(std::string_view text, std::size_t characters) {
  std::size_t at = 0;
  std::size_t seen = 0;
  while (at < text.size() && seen < characters) {
    at += std::max<std::size_t>(1, sequence_length(static_cast<unsigned char>(text[at])));
    ++seen;
  }
  if (at >= text.size()) return std::string(text);
  return std::string(text.substr(0, at)) + "\u2026";
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before(b.size() + 1);
  std::vector<std::size_t> above(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(above.begin(), above.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t cost = a[i - 1] == b[j - 1] ? 0 : 1;
      row[j] = std::min({above[j] + 1, row[j - 1] + 1, above[j - 1] + cost});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    std::swap(before, above);
    std::swap(above, row);
  }
  return above[b.size()];
}

std::optional<std::string> closest(std::string_view word, std::span<const std::string> known) {
  constexpr std::size_t kLongest = 64;  // longer words are sentences, not names
  if (word.empty() || word.size() > kLongest) return std::nullopt;
  const std::string wanted = lower(word);
  std::optional<std::string> best;
  std::size_t best_distance = SIZE_MAX;
  for (const std::string& candidate : known) {
    if (candidate.size() > kLongest) continue;
    const std::size_t longer = std::max(wanted.size(), candidate.size());
    const std::size_t allowed = std::max<std::size_t>(1, longer / 3);
    const std::size_t shorter = std::min(wanted.size(), candidate.size());
    if (longer - shorter > allowed) continue;
    const std::size_t distance = edit_distance(wanted, lower(candidate));
    if (distance <= allowed && distance < longer && distance < best_distance) {
      best = candidate;
      best_distance = distance;
    }
  }
  return best;
}

std::string did_you_mean(std::string_view word, std::span<const std::string> known) {
  const auto near = closest(word, known);
  return near ? "did you mean \"" + *near + "\"?" : std::string{};
}

std::string counted(long long n, std::string_view one, std::string_view plural) {
  std::string out = grouped(n) + " ";
  if (n == 1) return out + std::string(one);
  return out + (plural.empty() ? std::string(one) + "s" : std::string(plural));
}

std::string grouped(long long n) {
  std::string digits = std::to_string(n);
  const std::size_t first = n < 0 ? 1 : 0;
  for (std::size_t at = digits.size(); at > first + 3;) {
    at -= 3;
    digits.insert(at, ",");
  }
  return digits;
}

}  // namespace sherd
