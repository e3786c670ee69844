#pragma once

#include <vector>

#include "layout/chains.h"

namespace sherd::layout {

/// Gives each line the places where it leaves and reaches its vertices, moving passing lines by a quarter of the grid
/// where they would lie on another, and each net that is not upright the number of its track, from the top of its
/// channel; -1 for upright nets. The vertices' middles are on the grid.
std::vector<std::vector<int>> route(Chains& chains);

/// The line through its vertices, once rows and tracks have their y: upright and level stretches.
std::vector<Point> points_of(const Chain& chain, const Chains& chains, const std::vector<double>& row_top,
                             const std::vector<double>& row_bottom);

/// Where three or more stretches of a net meet.
void add_junctions(const Net& net, std::vector<Point>& to);

}  // namespace sherd::layout
