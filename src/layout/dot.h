#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "layout/arrange.h"
#include "layout/layout.h"

namespace sherd::layout {

/// The lane in dot's language, its vertices numbered; their rows are pinned by edges that are not seen.
std::string dot_text(const LaneGraph& graph);

/// The middle of each vertex, in mm, out of what `dot -Tplain` wrote. Errors: `dot_failed`.
Result<std::vector<double>> read_plain(std::string_view plain, std::size_t vertices);

/// As `arrange`, by dot. Errors: `no_dot`, `dot_too_slow`, `dot_failed`, `stopped`.
Result<std::vector<double>> arrange_by_dot(const LaneGraph& graph, ChildProcess& processes, const DotSettings& settings,
                                           Progress& progress);

}  // namespace sherd::layout
