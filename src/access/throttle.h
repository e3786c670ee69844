#pragma once

#include <cstdint>
#include <map>
#include <mutex>
#include <string>

#include "access/sessions.h"

namespace sherd::access {

struct ThrottleLimits {
  int free = 5;                     ///< failures that cost nothing but the hash
  std::int64_t first_wait = 2;      ///< seconds after the next; doubled with each further one
  std::int64_t longest_wait = 900;  ///< seconds, at most
  std::int64_t forget = 3600;       ///< seconds without a failure: all is forgotten
  std::size_t most_keys = 10'000;   ///< then the ones that failed longest ago are forgotten
};

/// Slows down guessing at passwords, by account and by address alike. Safe from several threads.
class Throttle {
 public:
  Throttle(ThrottleLimits limits, Clock clock) : limits_(limits), clock_(std::move(clock)) {}

  /// Seconds that are still to wait for `key`; 0: go on.
  std::int64_t wait(const std::string& key);
  void failed(const std::string& key);
  void succeeded(const std::string& key);

 private:
  struct Failures {
    int n = 0;
    std::int64_t last = 0;
  };
  void make_room(std::int64_t now);

  ThrottleLimits limits_;
  Clock clock_;
  std::mutex mutex_;
  std::map<std::string, Failures> failures_;
};

}  // namespace sherd::access
