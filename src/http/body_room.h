#pragma once

#include <cstdint>

namespace sherd::http {

/// What the bodies of requests may take of the memory, all together. For one thread.
class BodyRoom {
 public:
  explicit BodyRoom(std::uint64_t bytes) : left_(bytes) {}

  /// A part of it, given back at the end.
  class Part {
   public:
    explicit Part(BodyRoom& room) : room_(room) {}
    ~Part() { room_.left_ += bytes_; }
    Part(const Part&) = delete;
    Part& operator=(const Part&) = delete;

    /// False where so much is not left; then it takes nothing.
    bool take(std::uint64_t bytes) {
      if (bytes > room_.left_) return false;
      room_.left_ -= bytes;
      bytes_ += bytes;
      return true;
    }

   private:
    BodyRoom& room_;
    std::uint64_t bytes_ = 0;
  };

 private:
  std::uint64_t left_;
};

}  // namespace sherd::http
