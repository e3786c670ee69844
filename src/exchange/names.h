#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

namespace sherd::exchange {

/// Names that a record knows: the keys of one kind.
class NameSet {
 public:
  /// False where the name was there already.
  bool add(std::string_view name) {
    const bool is_new = names_.emplace(name).second;
    if (is_new) list_.emplace_back(name);
    return is_new;
  }
  bool has(std::string_view name) const { return names_.contains(name); }
  const std::vector<std::string>& list() const { return list_; }

 private:
  struct Hash {
    using is_transparent = void;
    std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>{}(text); }
  };
  std::unordered_set<std::string, Hash, std::equal_to<>> names_;
  std::vector<std::string> list_;
};

}  // namespace sherd::exchange
