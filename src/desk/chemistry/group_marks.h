#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "figure/palette.h"
#include "figure/xy.h"

namespace sherd::desk {

/// A colour and a symbol for each group, told apart by either alone among the first eight, by both beyond.
class GroupMarks {
 public:
  void add(const std::string& group) {
    if (place(group) == groups_.size()) groups_.push_back(group);
  }
  std::size_t place(std::string_view group) const {
    std::size_t at = 0;
    while (at < groups_.size() && groups_[at] != group) ++at;
    return at;
  }
  std::size_t colour(std::string_view group) const { return group.empty() ? 5 : number(group) % figure::kCategories; }
  figure::Symbol symbol(std::string_view group) const {
    const std::size_t at = number(group);
    return static_cast<figure::Symbol>((at + at / figure::kCategories) % 3);
  }
  std::vector<figure::XyGroup> legend() const {
    std::vector<figure::XyGroup> out;
    for (const std::string& group : groups_) {
      if (group.empty() && groups_.size() == 1) continue;
      out.push_back({group.empty() ? "in no group" : group, colour(group), symbol(group), group.empty()});
    }
    return out;
  }

 private:
  /// Among the named ones.
  std::size_t number(std::string_view group) const {
    std::size_t out = 0;
    for (std::size_t at = 0; at < place(group); ++at) out += groups_[at].empty() ? 0U : 1U;
    return out;
  }

  std::vector<std::string> groups_;
};

}  // namespace sherd::desk
