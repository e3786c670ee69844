#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "methods/compare/joins_result.h"

namespace sherd::compare {

/// A line of the record that takes part: where it lay, and what it is called.
struct JoinedLine {
  std::size_t node = 0;
  std::string record;
};
struct Tie {
  std::size_t a = 0, b = 0;  ///< of the lines
  bool is_join = true;       ///< a row of joins; else the two lines only name one vessel
  bool possible = false;     ///< possibly the same vessel
};
/// `labels`, `groups` and `sherds` in step.
struct JoinInput {
  std::vector<std::string> labels, groups;
  std::vector<std::int64_t> sherds;
  std::vector<JoinedLine> lines;
  std::vector<Tie> ties;
};

/// The network of contexts: docs/methods/joins.md. Cohesion is joins within over all; modularity that of the nodes as
/// communities, a join within counted at both its ends (M. E. J. Newman & M. Girvan 2004, Physical Review E 69: 026113;
/// from memory). Both null without joins.
JoinNetwork join_network(const JoinInput& input);

}  // namespace sherd::compare
