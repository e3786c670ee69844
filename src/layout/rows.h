#pragma once

#include <cstdint>
#include <vector>

#include "layout/layout.h"

namespace sherd::layout {

/// Which row each node lies in.
struct Rows {
  std::uint32_t count = 0;
  std::vector<std::uint32_t> of;  ///< of each node, 0 at the top
  std::vector<bool> upward;       ///< of each edge: its later node lies below
  struct Stretch {
    std::uint32_t lane = 0, band = 0, first = 0, last = 0;  ///< rows, both included
  };
  std::vector<Stretch> bands;  ///< those with nodes, by lane, from the top
};

/// Later above earlier, the bands of a lane one above the other without a row in common; an edge that contradicts the
/// bands or closes a loop is turned upward, as few as a greedy search finds. A node without a band lies between those
/// bands of its lane between which its edges put it, or within one. Nodes lie as low as they can, or as high where
/// that makes the lines shorter.
Rows rows_of(const Drawing& drawing);

}  // namespace sherd::layout
