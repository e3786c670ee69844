#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "figure/svg.h"

namespace sherd::figure {

/// What runs over the outside of a sherd.
enum class SherdPattern { none, lines, wave, lattice, dots, trailed, strips, combed, printed };

/// Grains in the paste. `share` is of the area, 0..0.5.
struct SherdGrains {
  std::string colour;  ///< "#D9CFC0"
  double size_mm = 0.4;
  double share = 0.1;
  bool flat = false;  ///< shell, chaff: longer than thick
};

/// A sherd as it looks in the hand, and its break under a lens. Colours as "#8A8A86".
struct SherdLook {
  std::string surface, margin, core;
  std::string glaze;  ///< "" for none
  bool shiny = false;
  SherdPattern pattern = SherdPattern::none;
  std::string pattern_colour;
  std::vector<SherdGrains> grains;
};

/// Draws the sherd and beside it the lens, which shows a stretch of the break of 5 mm, into a box at least twice as
/// wide as high. `seed` gives the outline and the places of the grains: the same seed, the same picture.
void draw_sherd(Svg& svg, const Box& box, const SherdLook& look, std::uint64_t seed);

}  // namespace sherd::figure
