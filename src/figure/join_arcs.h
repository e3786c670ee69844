#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "figure/page.h"

namespace sherd::figure {

struct ArcNode {
  std::string name, group, n;  ///< a heading is written where the group changes
  std::int64_t within = 0;     ///< joins inside it: the dot grows with them
  std::string data_set = {};
};
struct Arc {
  std::size_t a = 0, b = 0;  ///< of the nodes
  std::int64_t joins = 0;    ///< the line's width
  std::string words, data_set = {};
};

struct JoinArcsData {
  About about;
  std::string rows_word, n_word, group_word;  ///< "contexts", "sherds", "phase"
  std::vector<ArcNode> nodes;
  std::vector<Arc> arcs;
};

/// SVG of the contexts in rows and of an arc for each two that share joins, in red where their groups differ.
std::string join_arcs(const JoinArcsData& data, const Page& page);

}  // namespace sherd::figure
