#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace sherd::chemistry {

/// The rows of one group.
struct GroupRows {
  std::string name;
  std::vector<std::size_t> rows;
};
/// Groups in the order of their first rows; rows without a group ("") are in none.
std::vector<GroupRows> groups_of(std::span<const std::string> groups);

}  // namespace sherd::chemistry
