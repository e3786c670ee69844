#pragma once

#include <array>
#include <cstddef>
#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sherd::notation {

/// What stands in a corner of a diamond: a letter or a number.
struct DiamondSign {
  char letter = 0;
  int number = 0;
  std::size_t at = 0;  ///< byte in the text
  bool is_letter() const { return letter != 0; }
  std::string text() const { return is_letter() ? std::string(1, letter) : std::to_string(number); }
};

/// A diamond as it was described.
struct WrittenDiamond {
  std::array<std::optional<DiamondSign>, 4> corners;  ///< top, left, right, bottom
  std::vector<DiamondSign> unplaced;                  ///< it is not known in which corner
  std::string numeral;                                ///< of the class, as the tables write it: "XII i"
  std::size_t numeral_at = 0;
  int series = 0;  ///< where it was said
};

struct DiamondTrouble {
  std::size_t at = 0;
  std::string why;
};

constexpr std::array<std::string_view, 4> kCornerNames{"top", "left", "right", "bottom"};

std::expected<WrittenDiamond, DiamondTrouble> parse_diamond(std::string_view text);

}  // namespace sherd::notation
