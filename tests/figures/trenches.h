#pragma once

#include <cstdint>

#include "figure/stratigraphy_diagram.h"

namespace sherd::figure {

/// An invented excavation: in each area layers, pits with their fills and walls come to lie on what is exposed where
/// they are dug or laid, phase after phase. Only relations that do not follow from others. About `contexts` of them.
StratigraphyFigure trenches(std::size_t contexts, std::size_t areas, std::uint64_t seed);

}  // namespace sherd::figure
