#pragma once

#include <cstdint>
#include <vector>

#include "base/progress.h"
#include "base/result.h"

namespace sherd::layout {

/// One lane: what lies in which row, and the lines from a row to the next.
struct LaneGraph {
  struct Arc {
    std::uint32_t upper = 0, lower = 0;
    double weight = 1;  ///< how much it wants to be upright
  };
  std::uint32_t rows = 0;
  std::vector<std::uint32_t> row;  ///< of each vertex
  std::vector<double> width_mm;    ///< 0 for a passing line
  std::vector<Arc> arcs;
};

/// The middle of each vertex along its row, in mm, with few crossings and upright lines: order by barycentres
/// (Sugiyama, Tagawa & Toda 1981, "Methods for visual understanding of hierarchical system structures", IEEE
/// Transactions on Systems, Man and Cybernetics 11(2), 109-125), places by least squares in each row under the least
/// distances. Errors: `stopped`.
Result<std::vector<double>> arrange(const LaneGraph& graph, Progress& progress);

/// Number of pairs of arcs that cross where the vertices of each row lie in the order of `x`.
std::uint64_t crossings(const LaneGraph& graph, const std::vector<double>& x);

}  // namespace sherd::layout
