#pragma once

#include <cstdint>
#include <vector>

#include "layout/layout.h"
#include "layout/rows.h"

namespace sherd::layout {

/// A box, or the place where a long line passes through a row.
struct Vertex {
  std::uint32_t row = 0, lane = 0;
  double width_mm = 0, height_mm = 0;
  bool is_box = false;
  double x = 0;  ///< its middle, once it is placed
};

/// Lines that meet between a row and the next: one from above to many below, or many from above to one below. A
/// link's last piece has two from above and none below.
struct Net {
  std::vector<std::uint32_t> up, down;  ///< vertices, each once
  std::vector<double> up_mm, down_mm;   ///< where the line leaves or reaches each, once known
  double track_mm = 0;                  ///< y of the level stretch, once known
};

/// A line as the vertices that it passes and the nets between them.
struct Chain {
  std::vector<std::uint32_t> vertices;
  std::vector<std::uint32_t> nets;  ///< of the channel under each vertex but the last
};

/// Everything in rows, each line only from a row to the next. The first vertices are the nodes.
struct Chains {
  std::uint32_t rows = 0;
  std::vector<Vertex> vertices;
  std::vector<std::vector<Net>> channels;  ///< under each row
  std::vector<Chain> edges, links;         ///< from the top
};

/// Long lines get places in the rows between. The edges of a node with several downwards form a tree from it; those
/// that are their upper node's only one form a tree to their lower node; each shares its stretches, which is never
/// ambiguous. Boxes are as wide as the number of lines that end at them needs.
Chains chains_of(const Drawing& drawing, const Rows& rows);

}  // namespace sherd::layout
