#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <memory_resource>
#include <string_view>

namespace sherd::exchange {

/// Keeps texts at fixed addresses until `clear`; the first 16 KB cost no allocation.
class TextArena {
 public:
  TextArena() = default;
  TextArena(const TextArena&) = delete;
  TextArena& operator=(const TextArena&) = delete;

  std::string_view keep(std::string_view text) {
    if (text.empty()) return {};
    char* const copy = room(text.size());
    std::ranges::copy(text, copy);
    return {copy, text.size()};
  }
  char* room(std::size_t bytes) { return static_cast<char*>(pool_.allocate(bytes, 1)); }
  void clear() { pool_.release(); }

 private:
  std::array<std::byte, 16384> first_;
  std::pmr::monotonic_buffer_resource pool_{first_.data(), first_.size()};
};

}  // namespace sherd::exchange
