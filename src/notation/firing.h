#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "model/words.h"

namespace sherd {

/// Parts of a break, from outside to inside.
enum class FiringZone { outside, outer_margin, core, inner_margin, inside };
/// What the colour of a zone says of the air in the kiln.
enum class Firing { oxidised, unoxidised, reduced, irregular };

template <>
struct Words<FiringZone> {
  static constexpr std::array<std::string_view, 5> kNames{"outside", "outer margin", "core", "inner margin", "inside"};
};
template <>
struct Words<Firing> {
  static constexpr std::array<std::string_view, 4> kNames{"oxidised", "unoxidised", "reduced", "irregular"};
};

namespace notation {

struct FiringReading {
  std::array<std::optional<Firing>, 5> zones;  ///< outside to inside; nothing: not said
  std::string words;                           ///< "outside oxidised, core unoxidised, inside reduced"
  std::vector<std::string> because;            ///< what was taken for what
  std::vector<std::string> warnings;
};

/// Reads firing zone by zone: "outside oxidised, core dark, inside reduced", "oxidised throughout", "oxidised with a
/// grey core", "dark margins"; also letters for outside/core/inside or for all five zones, "O/U/O" (O oxidised, I
/// irregular, U unoxidised, R reduced). Error `unreadable_firing` with a caret: an unknown word, a zone said twice, or
/// none.
Result<FiringReading> read_firing(std::string_view text);

/// The zones in words; what `read_firing` reads back as the same zones.
std::string firing_text(const std::array<std::optional<Firing>, 5>& zones);

}  // namespace notation
}  // namespace sherd
