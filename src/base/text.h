#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace sherd {

/// Without white space at both ends (ASCII white space and U+00A0).
std::string_view trim(std::string_view text);
/// ASCII letters in lower case; other bytes unchanged.
std::string lower(std::string_view text);
/// The parts between `separator`, untrimmed; "" gives one empty part.
std::vector<std::string_view> split(std::string_view text, char separator);
std::string join(std::span<const std::string> parts, std::string_view separator);
/// For a query of an address: what RFC 3986 does not call unreserved in %XX.
std::string percent_encoded(std::string_view text);
std::string replace_all(std::string text, std::string_view from, std::string_view to);

/// True where every byte belongs to a well-formed UTF-8 sequence (RFC 3629: no surrogates, nothing above U+10FFFF).
bool is_utf8(std::string_view bytes);
/// The first `characters` characters of UTF-8 text, with an ellipsis where something was cut.
std::string shortened(std::string_view text, std::size_t characters);

/// Number of insertions, deletions, substitutions and swaps of neighbours between two words (optimal string alignment).
std::size_t edit_distance(std::string_view a, std::string_view b);
/// The known word nearest to `word`, letters' case aside, where it is near enough to be meant
/// (at most a third of the longer word's letters, at least one); nothing otherwise.
std::optional<std::string> closest(std::string_view word, std::span<const std::string> known);
/// `did you mean "grey-1"?` or "" where nothing is near.
std::string did_you_mean(std::string_view word, std::span<const std::string> known);

/// "1 sherd", "2 sherds"; `plural` where adding s is wrong.
std::string counted(long long n, std::string_view one, std::string_view plural = {});
/// 12345 -> "12,345"
std::string grouped(long long n);

}  // namespace sherd
