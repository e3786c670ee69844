#include "methods/chemistry/groups.h"

#include <map>

namespace sherd::chemistry {

std::vector<GroupRows> groups_of(std::span<const std::string> groups) {
  std::vector<GroupRows> out;
  std::map<std::string, std::size_t> place;
  for (std::size_t row = 0; row < groups.size(); ++row) {
    if (groups[row].empty()) continue;
    const auto [at, fresh] = place.try_emplace(groups[row], out.size());
    if (fresh) out.push_back({groups[row], {}});
    out[at->second].rows.push_back(row);
  }
  return out;
}

}  // namespace sherd::chemistry
