#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "model/table.h"

namespace sherd::quantify {

/// Lines by the values of some columns. Groups are numbered in the order in which they are shown.
struct Groups {
  std::vector<std::uint32_t> of;     ///< the group of each of the lines given
  std::vector<std::uint32_t> first;  ///< a line of each group
};

/// `lines` index into the columns of `by`. No columns: one group, or none where there are no lines. Order: column by
/// column, words in natural order, numbers by value, blank last.
Groups group_lines(std::span<const Column* const> by, std::span<const std::uint32_t> lines);

}  // namespace sherd::quantify
