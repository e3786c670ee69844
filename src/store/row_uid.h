#pragma once

#include <array>
#include <cstdint>
#include <string_view>

namespace sherd::store {

/// Names of the rows that one change adds: 6 letters of the change's number in the store that made it, 10 of the
/// SHA-256 of its uid (50 bits, which keep copies of a store apart), 5 of the row's place within the change. All have
/// the same width, and their order is that in which the rows were added. The alphabet is base32hex in lower case
/// (RFC 4648 section 7). Rows keep these names for ever: do not change the form.
class RowUids {
 public:
  static constexpr std::size_t kWidth = 21;
  static constexpr std::int64_t kMostRows = 1LL << 25;
  static constexpr std::int64_t kMostChanges = 1LL << 30;

  RowUids(std::int64_t seq, std::string_view change_uid);
  /// Valid until the next call. 0 <= ordinal < kMostRows.
  std::string_view at(std::int64_t ordinal);

 private:
  std::array<char, kWidth> text_{};
};

}  // namespace sherd::store
