#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "figure/page.h"

namespace sherd::figure {

struct Leaf {
  std::string name;
  std::size_t cluster = 0;  ///< from 1; 0: none
  std::string data_set = {};
};

/// `a` and `b`: leaves by their place from 0, or leaves + an earlier step.
struct Branch {
  std::size_t a = 0, b = 0;
  double height = 0;
};

struct DendrogramData {
  About about;
  std::string axis_title;  ///< "Distance, percent (average linkage)"
  std::string rows_word;   ///< "contexts"
  std::vector<Leaf> leaves;
  std::vector<Branch> branches;  ///< leaves - 1, in the order of their making, heights never falling by much
  std::optional<double> cut;     ///< a dashed line across the branches
};

/// SVG of a tree that grows from the left. Where there are more leaves than rows on the page, the lowest branches are
/// folded: a row then stands for several leaves and says how many. Clusters take the colours of categories and their
/// number; beyond eight the number alone tells them.
std::string dendrogram(const DendrogramData& data, const Page& page);

}  // namespace sherd::figure
