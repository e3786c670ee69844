#pragma once

#include <gtest/gtest.h>

#include "base/random.h"
#include "layout/layout.h"

/// For tests only: drawings to place, and what must hold of each.
namespace sherd::layout {

struct MadeUp {
  std::uint32_t nodes = 60, edges = 90, lanes = 1, bands = 6;
  bool loops = false;     ///< any two nodes may be tied, in any direction
  bool unbanded = false;  ///< some nodes have no band
  std::uint32_t links = 0;
  std::uint32_t reach = 12;    ///< how far apart in the order most tied nodes are
  std::uint32_t far_one = 10;  ///< one edge in so many reaches anywhere; 0: none
};

/// An order of nodes 0, 1 ... from the latest; bands cut it into stretches.
Drawing made_up(const MadeUp& like, Random& random);

/// Every box is placed once and on the page, no two overlap; later lies above earlier but for edges said to be upward;
/// bands of a lane lie in order, apart, around their nodes; lines are upright or level, end at their boxes, cross no
/// box, and lie on one another only where they have an end in common.
void expect_well_placed(const Drawing& drawing, const Placed& placed);

/// Pairs of upright and level stretches that cross, by trying each against each.
std::size_t crossings_seen(const Placed& placed);

}  // namespace sherd::layout
